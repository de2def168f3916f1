/** `hear`: shows what the line understands from texts, as JSON lines. For people, corpora and tests; records nothing. */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { hear } from '../hear/hear.ts';
import type { Lexicon } from '../hear/lexicon.ts';
import { readWords } from '../hear/read-words.ts';
import { type Day, isoDay, parseDay } from '../plan/day.ts';

const USAGE = 'Usage: hear [--lang en] [--today YYYY-MM-DD] ("text" | --lines < texts)';
const BAD_OPTION = 2;
const MS_A_DAY = 86_400_000;

interface Options {
  readonly lexicon: Lexicon;
  readonly today: Day;
  readonly lines: boolean;
  readonly text: string;
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
    },
  });
  const today = values.today === undefined ? localToday() : parseDay(values.today);
  if (today === null) throw new Error(`--today "${values.today}" is no day such as ${isoDay(localToday())}`);
  if (!values.lines && positionals.length === 0) throw new Error('No text given.');
  if (values.lines && positionals.length > 0)
    throw new Error('--lines reads texts from stdin: give no text as well.');
  return { lexicon: loadLexicon(values.lang), today, lines: values.lines, text: positionals.join(' ') };
}

async function readAll(input: NodeJS.ReadableStream): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of input) parts.push(Buffer.from(part));
  return Buffer.concat(parts).toString('utf8');
}

/** Prints one JSON line a text; resolves to the exit code, 2 for a bad option. */
export async function hearCommand(args: readonly string[]): Promise<number> {
  let options: Options;
  try {
    options = readOptions(args);
  } catch (fault) {
    console.error(`${(fault as Error).message}\n${USAGE}`);
    return BAD_OPTION;
  }
  const { lexicon, today } = options;
  const print = (text: string) => process.stdout.write(`${JSON.stringify(hear(text, lexicon, today))}\n`);
  if (!options.lines) {
    print(options.text);
    return 0;
  }
  for (const line of (await readAll(process.stdin)).replace(/\n$/, '').split('\n'))
    print(line.replace(/\r$/, ''));
  return 0;
}
