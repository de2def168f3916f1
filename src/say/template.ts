/** A message's text with its `{{placeholders}}` found once. Values are put in, never read: a name holding "{{x}}" stays a name. */

/** Text between placeholders and the placeholders' names, alternating: texts has one more than names. */
export interface Template {
  readonly texts: readonly string[];
  readonly names: readonly string[];
}

const PLACEHOLDER = /\{\{\s*([A-Za-z][A-Za-z0-9]*)\s*\}\}/g;

/** Finds the placeholders. `readTemplate('Plot {{plot}}.')` is { texts: ["Plot ", "."], names: ["plot"] }. */
export function readTemplate(source: string): Template {
  const pieces = source.split(PLACEHOLDER);
  return {
    texts: pieces.filter((_, i) => i % 2 === 0),
    names: pieces.filter((_, i) => i % 2 === 1),
  };
}

/** Puts each placeholder's text in its place. */
export function fillTemplate(template: Template, textOf: (name: string) => string): string {
  let text = template.texts[0] ?? '';
  template.names.forEach((name, i) => {
    text += textOf(name) + (template.texts[i + 1] ?? '');
  });
  return text;
}

/** True when braces or nesting are left that no placeholder explains: formats and `$t()` are not used here. */
export function hasStrayMarks(source: string): boolean {
  return readTemplate(source).texts.some((text) => /\{\{|\}\}|\$t\(/.test(text));
}

/** The names of all placeholders in these texts, each once: what the plural forms of one message may use together. */
export function namesIn(sources: Iterable<string>): string[] {
  return [...new Set([...sources].flatMap((source) => readTemplate(source).names))];
}
