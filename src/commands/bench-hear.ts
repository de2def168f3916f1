/** Texts heard a second by one core in each language, and what a text of 1,600 characters takes beside one of 20. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { hear } from '../hear/hear.ts';
import { loadLexicon } from './hear.ts';
import { type Corpus, readCorpus } from './hear-corpus.ts';

const LOCALES = fileURLToPath(new URL('../../locales/', import.meta.url));
const SHORT = 20;
const LONG = 1600;
const ROUNDS = 7;
const NS_A_SECOND = 1e9;

/** A row for each language that has phrases. */
export function benchHear(): Promise<readonly string[]> {
  const langs = readdirSync(LOCALES).filter((lang) => existsSync(`${LOCALES}${lang}/phrases.yaml`));
  return Promise.resolve(langs.sort().map(row));
}

function row(lang: string): string {
  const corpus = readCorpus(readFileSync(`${LOCALES}${lang}/phrases.yaml`, 'utf8'));
  const texts = corpus.groups.flatMap((group) => group.texts);
  const short = texts.filter(({ length }) => Math.abs(length - SHORT) <= 1);
  const long = longTexts(short);
  const every = nsEach(texts, lang, corpus);
  const [nsShort, nsLong] = [nsEach(short, lang, corpus), nsEach(long, lang, corpus)];
  return `hear ${lang}: ${(NS_A_SECOND / every).toFixed(0)} texts/s on one core (${texts.length} phrases); ${SHORT} characters ${(nsShort / 1000).toFixed(0)} us, ${LONG} characters ${(nsLong / 1000).toFixed(0)} us: ${(nsLong / nsShort).toFixed(0)} times for ${LONG / SHORT} times the length`;
}

/** The short phrases in a row, as many as a text can hold. */
function longTexts(short: readonly string[]): readonly string[] {
  const each = Math.floor(LONG / (SHORT + 2));
  const count = Math.max(1, Math.floor(short.length / each));
  return Array.from({ length: count }, (_, turn) =>
    Array.from({ length: each }, (__, at) => short[(turn * each + at) % short.length]).join('. '),
  );
}

/** Nanoseconds a text, the fastest of several rounds over all of them. */
function nsEach(texts: readonly string[], lang: string, { today }: Corpus): number {
  const lexicon = loadLexicon(lang);
  let best = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const started = process.hrtime.bigint();
    for (const text of texts) hear(text, lexicon, today);
    best = Math.min(best, Number(process.hrtime.bigint() - started) / texts.length);
  }
  return best;
}
