/** The scheme's own file (YAML): who and what there is. Every mistake is listed with its line and place. */
import { isMap, LineCounter, type Node, parseDocument, visit } from 'yaml';
import type { Rulebook } from '../agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import type { Day } from '../plan/day.ts';
import { areaUnitMistakes, type WordTaken } from './area-unit.ts';
import { nutrientMistakes } from './nutrients-section.ts';
import { rulebookMistakes } from './rulebook-section.ts';
import { schemeMistakes } from './scheme-mistakes.ts';
import { type SchemeFile, schemeSchema } from './scheme-shape.ts';

export interface SchemeMistake {
  /** "line 12, plots 3, areaHa". */
  readonly place: string;
  readonly what: string;
}

export type SchemeReading =
  | { readonly ok: true; readonly scheme: SchemeFile }
  | { readonly ok: false; readonly mistakes: readonly SchemeMistake[] };

/**
 * Reads a scheme file's text. `loadedOn` is the day from which "+25" counts, `book` what its own figures stand in for, `taken`
 * tells which words the languages have already; none when it is not given.
 */
export function readSchemeFile(
  yamlText: string,
  loadedOn: Day,
  book: Rulebook = DEFAULT_RULEBOOK,
  taken: WordTaken = () => null,
): SchemeReading {
  const lines = new LineCounter();
  const document = parseDocument(yamlText, { lineCounter: lines });
  const placeOf = (path: readonly PropertyKey[]) =>
    [lineOf(document.contents, path, lines), ...path.map(oneBased)].filter(Boolean).join(', ');
  const unread = yamlMistakes(document, lines);
  if (unread.length > 0) return { ok: false, mistakes: unread };
  const read = schemeSchema(loadedOn).safeParse(document.toJS());
  if (!read.success) {
    return {
      ok: false,
      mistakes: read.error.issues.map(({ path, message }) => ({
        place: placeOf(path) || 'line 1',
        what: message,
      })),
    };
  }
  const mistakes = [
    ...areaUnitMistakes(read.data.areaUnit, read.data.languages, taken),
    ...schemeMistakes(read.data),
    ...nutrientMistakes(read.data.nutrients, book),
    ...rulebookMistakes(read.data.rulebook, book),
  ].map(({ path, what }) => ({ place: placeOf(path), what }));
  return mistakes.length > 0 ? { ok: false, mistakes } : { ok: true, scheme: read.data };
}

/** What keeps the text from being read as data at all. Aliases are refused: one that names nothing, or very many, cannot be followed. */
function yamlMistakes(document: ReturnType<typeof parseDocument>, lines: LineCounter): SchemeMistake[] {
  const mistakes = document.errors.map(({ message, linePos }) => ({
    place: `line ${linePos?.[0].line ?? 1}`,
    what: message.split('\n')[0] ?? '',
  }));
  visit(document, {
    Alias: (_, { source, range }) => {
      const place = `line ${lines.linePos(range?.[0] ?? 0).line}`;
      mistakes.push({ place, what: `"*${source}" stands for something else; write it out` });
    },
  });
  return mistakes;
}

const oneBased = (part: PropertyKey) => (typeof part === 'number' ? String(part + 1) : String(part));

/** The line of the deepest node that exists on this path. */
function lineOf(contents: unknown, path: readonly PropertyKey[], lines: LineCounter): string {
  let node = contents as Node | null;
  let offset = 0;
  for (const part of path) {
    const next: unknown =
      node && 'get' in node && typeof node.get === 'function' ? node.get(part, true) : null;
    if (isMap(node)) offset = keyOffset(node.items, part) ?? offset;
    if (!next || typeof next !== 'object') break;
    node = next as Node;
    offset = node.range?.[0] ?? offset;
  }
  return `line ${lines.linePos(offset).line}`;
}

function keyOffset(items: readonly { readonly key: unknown }[], part: PropertyKey): number | undefined {
  const found = items.find(
    ({ key }) => key !== null && typeof key === 'object' && 'value' in key && key.value === part,
  );
  return (found?.key as Node | undefined)?.range?.[0];
}
