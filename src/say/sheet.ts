/** The sheet of one language: every message with sample values and what it costs, for a native speaker to read and correct. */
import type { Catalogue } from './catalogue.ts';
import { measure } from './parts.ts';
import { phrasesIn } from './phrases.ts';
import type { SampleText } from './sampler.ts';

/** What the line understands from a phrase that a message tells, in a few words. */
export type ReadBack = (phrase: string, key: string) => string;

/** The sheet as Markdown; its first line says whether a native speaker has read the texts. */
export function sheetPage(catalogue: Catalogue, texts: readonly SampleText[], readBack: ReadBack): string {
  const { calendar, lang } = catalogue;
  const status = calendar.draft ? 'Draft: not yet read by a native speaker.' : 'Read by a native speaker.';
  const long = texts.filter(({ text }) => measure(text).parts > 1).length;
  const intro = `${texts.length} texts with long sample values; ${long} take more than one part. Made by \`npm run -s sheet -- --lang ${lang} --write\`.`;
  const groups = [...groupByHead(texts)].map(([head, rows]) => groupTable(head, rows, catalogue));
  const phrases = phraseTable(catalogue, texts, readBack);
  return [status, `# ${calendar.language} (${lang})`, intro, ...groups, ...phrases].join('\n\n') + '\n';
}

function groupByHead(texts: readonly SampleText[]): Map<string, SampleText[]> {
  const groups = new Map<string, SampleText[]>();
  for (const row of texts) {
    const head = row.key.includes('.') ? row.key.slice(0, row.key.indexOf('.')) : '(alone)';
    groups.set(head, [...(groups.get(head) ?? []), row]);
  }
  return groups;
}

function groupTable(head: string, rows: readonly SampleText[], { calendar }: Catalogue): string {
  const unit = calendar.alphabet === 'gsm7' ? 'septets' : 'units';
  const lines = rows.map(({ key, form, text }) => {
    const { units, parts } = measure(text);
    return `| ${key}${form && ` (${form})`} | ${cell(text)} | ${units} | ${parts} |`;
  });
  return [
    `## ${head}`,
    '',
    `| message | text | ${unit} | parts |`,
    '| --- | --- | --: | --: |',
    ...lines,
  ].join('\n');
}

/** Each phrase that texts tell people to send, once, with what is heard. */
function phraseTable(catalogue: Catalogue, texts: readonly SampleText[], readBack: ReadBack): string[] {
  const lines = [...toldPhrases(catalogue, texts)].map(
    ([phrase, key]) => `| ${cell(phrase)} | ${key} | ${cell(readBack(phrase, key))} |`,
  );
  if (lines.length === 0) return [];
  const head = [
    '## What people are told to send',
    '',
    '| phrase | first told in | heard as |',
    '| --- | --- | --- |',
  ];
  return [[...head, ...lines].join('\n')];
}

/** Phrases with the message that first tells them; the messages under "word" are phrases themselves and are sent with a plot. */
export function toldPhrases({ calendar }: Catalogue, texts: readonly SampleText[]): Map<string, string> {
  const phrases = new Map<string, string>();
  for (const { key, text } of texts) {
    const told = key.startsWith('word.') ? [`${text} 3`] : phrasesIn(text, calendar.sendWords);
    for (const phrase of told) if (!phrases.has(phrase)) phrases.set(phrase, key);
  }
  return phrases;
}

/** A line's end inside a text is shown, and a bar does not end the cell. */
function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ⏎ ');
}
