/** Every language folder with its word list and corpus, so that each test runs over all of them. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { hear } from '../../src/hear/hear.ts';
import type { Lexicon } from '../../src/hear/lexicon.ts';
import { readWords } from '../../src/hear/read-words.ts';
import type { Heard, Reading } from '../../src/hear/reading.ts';
import type { WordList } from '../../src/hear/word-list.ts';
import { wordListShape } from '../../src/hear/word-list.ts';
import { type Day, parseDay } from '../../src/plan/day.ts';

const LOCALES = new URL('../../locales/', import.meta.url);

export interface Corpus {
  readonly today: Day;
  readonly groups: readonly {
    readonly reads: readonly Partial<Reading>[];
    readonly texts: readonly string[];
  }[];
}

export interface Refusals {
  readonly today: Day;
  readonly unclear: Readonly<Record<string, readonly string[]>>;
  readonly neverReport: readonly string[];
}

export interface Language {
  readonly lang: string;
  readonly list: WordList;
  readonly lexicon: Lexicon;
  readonly phrases: Corpus | null;
  readonly refusals: Refusals | null;
}

const text = (path: string): string => readFileSync(new URL(path, LOCALES), 'utf8');

function yaml<T extends { today: Day }>(path: string): T | null {
  if (!existsSync(new URL(path, LOCALES))) return null;
  const read = parse(text(path)) as T & { today: unknown };
  return { ...read, today: parseDay(String(read.today))! };
}

function language(lang: string): Language {
  const raw: unknown = JSON.parse(text(`${lang}/words.json`));
  const read = readWords(raw);
  if (!read.ok) throw new Error(`locales/${lang}/words.json:\n${read.mistakes.join('\n')}`);
  return {
    lang,
    list: wordListShape.parse(raw),
    lexicon: read.lexicon,
    phrases: yaml<Corpus>(`${lang}/phrases.yaml`),
    refusals: yaml<Refusals>(`${lang}/refusals.yaml`),
  };
}

export const LANGUAGES: readonly Language[] = readdirSync(LOCALES)
  .filter((lang) => existsSync(new URL(`${lang}/words.json`, LOCALES)))
  .map(language);

export const ENGLISH = LANGUAGES.find((one) => one.lang === 'en')!;

/** A Wednesday. */
export const TODAY = parseDay('2027-03-10')!;

export const hearEnglish = (said: string, today: Day = TODAY): Heard => hear(said, ENGLISH.lexicon, today);

export const reportsIn = (heard: Heard): Reading[] =>
  heard.readings.filter((reading) => reading.kind === 'report');
