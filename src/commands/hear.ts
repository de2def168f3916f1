/** `hear`: shows what the line understands from texts, as JSON lines. For people, corpora and tests; records nothing. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { hear } from '../hear/hear.ts';
import type { Lexicon } from '../hear/lexicon.ts';
import { readWords } from '../hear/read-words.ts';
import { type Day, isoDay, parseDay } from '../plan/day.ts';
import { corpusRows } from './hear-corpus.ts';

const USAGE = `Usage: hear [--lang en] [--today YYYY-MM-DD] ("text" | --lines < texts)
       hear [--lang en] --corpus [--figures] [FILE.yaml ...]   (by default the language's phrases and refusals)`;
const BAD_OPTION = 2;
const MS_A_DAY = 86_400_000;

interface Options {
  readonly lexicon: Lexicon;
  readonly today: Day;
  readonly lines: boolean;
  readonly text: string;
  /** Files of a corpus to be judged; null for a text. */
  readonly corpus: readonly string[] | null;
  readonly figures: boolean;
}

/** Reads and checks `locales/<lang>/words.json`; throws an Error that names every mistake. */
export function loadLexicon(lang: string): Lexicon {
  if (!/^[a-z]{2,3}(-[A-Za-z]+)?$/.test(lang))
    throw new Error(`--lang "${lang}" is no language tag such as en`);
  const path = new URL(`../../locales/${lang}/words.json`, import.meta.url);
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(path, 'utf8'));
  } catch (cause) {
    throw new Error(`--lang ${lang}: no readable word list at locales/${lang}/words.json`, { cause });
  }
  const read = readWords(json);
  if (!read.ok) throw new Error(`locales/${lang}/words.json has mistakes:\n${read.mistakes.join('\n')}`);
  return read.lexicon;
}

function localToday(): Day {
  const now = new Date();
  return Math.floor((now.getTime() - now.getTimezoneOffset() * 60_000) / MS_A_DAY);
}

function readOptions(args: readonly string[]): Options {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      lang: { type: 'string', default: 'en' },
      today: { type: 'string' },
      lines: { type: 'boolean', default: false },
      corpus: { type: 'boolean', default: false },
      figures: { type: 'boolean', default: false },
    },
  });
  const today = values.today === undefined ? localToday() : parseDay(values.today);
  if (today === null) throw new Error(`--today "${values.today}" is no day such as ${isoDay(localToday())}`);
  const { lang, lines, corpus, figures } = values;
  if (corpus)
    return {
      lexicon: loadLexicon(lang),
      today,
      lines,
      text: '',
      figures,
      corpus: positionals.length > 0 ? positionals : ownCorpus(lang),
    };
  if (!lines && positionals.length === 0) throw new Error('No text given.');
  if (lines && positionals.length > 0)
    throw new Error('--lines reads texts from stdin: give no text as well.');
  return { lexicon: loadLexicon(lang), today, lines, text: positionals.join(' '), corpus: null, figures };
}

const ownCorpus = (lang: string) =>
  ['phrases', 'refusals'].map((name) =>
    fileURLToPath(new URL(`../../locales/${lang}/${name}.yaml`, import.meta.url)),
  );

async function readAll(input: NodeJS.ReadableStream): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of input) parts.push(Buffer.from(part));
  return Buffer.concat(parts).toString('utf8');
}

/** Prints the figures of corpora; 2 when one cannot be read. */
function judged(files: readonly string[], { lexicon, figures }: Options): number {
  try {
    for (const row of corpusRows(files, lexicon, figures)) console.log(row);
    return 0;
  } catch (fault) {
    console.error((fault as Error).message);
    return BAD_OPTION;
  }
}

/** Prints one JSON line a text, or the figures of corpora; resolves to the exit code, 2 for a bad option. */
export async function hearCommand(args: readonly string[]): Promise<number> {
  let options: Options;
  try {
    options = readOptions(args);
  } catch (fault) {
    console.error(`${(fault as Error).message}\n${USAGE}`);
    return BAD_OPTION;
  }
  const { lexicon, today } = options;
  if (options.corpus) return judged(options.corpus, options);
  const print = (text: string) => process.stdout.write(`${JSON.stringify(hear(text, lexicon, today))}\n`);
  if (!options.lines) {
    print(options.text);
    return 0;
  }
  for (const line of (await readAll(process.stdin)).replace(/\n$/, '').split('\n'))
    print(line.replace(/\r$/, ''));
  return 0;
}
