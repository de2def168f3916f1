/** The work of hearing grows at most as the text does, whatever it says. Counted, not timed. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openStepCounter, type StepCounter } from '../support/steps.ts';

/** Each is repeated until the text is as long as carriers let it be. */
const PIECES = [
  'ploughed plot 3 yesterday, cleared 2 today. ',
  'level plot 3 4 6 9 ',
  'ploughed ',
  'clear and ',
  'ploughedplot',
  'notplough',
  'not ',
  'the ',
  'of the ',
  'plot 3 ',
  '3 and 4 and ',
  '1-9 ',
  '12 ',
  '1,',
  '1.',
  '3/',
  '-',
  '12 march ',
  'until friday ',
  'half of plot 3 ',
  '3/4 ploughed ',
  'rest of ',
  'rain 12 ',
  'nursery sown not ',
  'no water in plot 2 ',
  'what? ',
  'abcdefghi ',
  'qzxwvb ',
  'plowwgd hrvvestid ',
  'e\u0301 ',
  '৩ ',
  'x',
];

/** A text of at most so many characters. */
const filled = (piece: string, length: number) =>
  piece.repeat(Math.ceil(length / piece.length)).slice(0, length);

/** Steps a character that no text may take; the worst ones compare every unknown word with all words of ours. */
const MOST_STEPS_A_CHARACTER = 6000;
const [SHORT, LONG] = [400, 1600];
/** Work for each text, however short, makes the growth smaller, never greater; a tenth is left for uneven cuts. */
const LINEAR = (LONG / SHORT) * 1.1;

/** Every language is loaded under the counter, which takes long on a busy machine. */
const LOADING_MS = 180_000;

let counter: StepCounter;
let stepsOf: (text: string, lang: string) => Promise<number>;
let languages: readonly string[] = [];

beforeAll(async () => {
  counter = await openStepCounter();
  const { hear } = await import('../../src/hear/hear.ts');
  const { LANGUAGES, TODAY } = await import('./languages.ts');
  languages = LANGUAGES.map(({ lang }) => lang);
  stepsOf = (text, lang) => {
    const { lexicon } = LANGUAGES.find((one) => one.lang === lang)!;
    return counter.count('/src/hear/', () => void hear(text, lexicon, TODAY));
  };
}, LOADING_MS);
afterAll(() => counter.close());

test.each(PIECES)('"%s" over and over', async (piece) => {
  for (const lang of languages) {
    const short = await stepsOf(filled(piece, SHORT), lang);
    const long = await stepsOf(filled(piece, LONG), lang);
    expect(long, `${lang}: steps of ${SHORT} and ${LONG} characters`).toBeLessThanOrEqual(short * LINEAR);
    expect(long / LONG, `${lang}: steps a character`).toBeLessThan(MOST_STEPS_A_CHARACTER);
  }
});

test('a step is counted each time', async () => {
  const few = await stepsOf('ploughed plot 3', 'en');
  expect(few).toBeGreaterThan(500);
  // Counts differ by a few when the engine compiles a function anew.
  expect(Math.abs((await stepsOf('ploughed plot 3', 'en')) - few)).toBeLessThan(few / 50);
});
