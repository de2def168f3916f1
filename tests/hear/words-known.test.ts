import { expect, test } from 'vitest';
import { wordsKnown } from '../../src/hear/words-known.ts';
import { ENGLISH, LANGUAGES } from './languages.ts';

test.each([
  ['ploughed the zzz 3', 2],
  ['12 3/4 ?!', 0],
  ['', 0],
  ['PLOUGHED plot 3', 2],
])('"%s" has %i words of English', (text, count) => {
  expect(wordsKnown(text, ENGLISH.lexicon)).toBe(count);
});

/** Greetings and joining words, by their language. */
const FIRST_WORDS = [
  ['en', 'hello who is this'],
  ['en', 'how do I join this line please'],
  ['fr', "bonjour c'est qui"],
  ['fr', 'je voudrais rejoindre ORROWE'],
  ['sw', 'habari, hii ni nani'],
  ['sw', 'nataka kujiunga ORROWE'],
  ['bn', 'ভাই আপনি কে'],
  ['bn', 'JOG ORROWE'],
] as const;

test.each(FIRST_WORDS)('%s knows most words of "%s"', (lang, text) => {
  const counts = LANGUAGES.map((one) => ({ lang: one.lang, known: wordsKnown(text, one.lexicon) }));
  const others = counts.filter((one) => one.lang !== lang).map(({ known }) => known);
  expect(counts.find((one) => one.lang === lang)?.known).toBeGreaterThan(Math.max(...others));
});
