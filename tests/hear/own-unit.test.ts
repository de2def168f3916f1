/** A scheme's own unit of area, heard in each language beside the language's own words. */
import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { hearDetails } from '../../src/hear/hear-details.ts';
import { lexiconsFor, lexiconWith, OWN_UNIT, whyTaken } from '../../src/hear/own-unit.ts';
import { day } from '../support/seasons.ts';
import { ENGLISH, LANGUAGES } from './languages.ts';

const TODAY = day('2027-03-10');
const TINS = lexiconWith(ENGLISH.list, { words: ['tin', 'tins'], m2: 500 });

test.each([
  ['2 tins', [2], [0.1]],
  ['1 and half tin', [1.5], [0.075]],
  ['one and a half tins', [1.5], [0.075]],
  ['0.5 tin', [0.5], [0.025]],
  ['half a tin', [0.5], [0.025]],
  ['1/2 tin', [0.5], [0.025]],
  ['a tin', [], []],
  ['3TINS', [3], [0.15]],
  ['2 tins and 1 acre', [2, 1], [0.1, 0.4047]],
  ['1 tin, 0.3 ha, 2', [1, 0.3, 2], [0.05, 0.3, null]],
  ['2 buckets', [2], [null]],
])('areas of "%s"', (text, numbers, areasHa) =>
  expect(hearDetails(text, TINS)).toMatchObject({ numbers, areasHa }),
);

test('without the unit a tin is no area', () => {
  expect(hearDetails('2 tins', ENGLISH.lexicon).areasHa).toEqual([null]);
});

test('each unit has a lexicon of its own, built once', () => {
  const lexicons = lexiconsFor(ENGLISH.list, ENGLISH.lexicon);
  const [half, whole] = [500, 1000].map((m2) => ({ words: ['tin', 'tins'], m2 }));
  expect(lexicons()).toBe(ENGLISH.lexicon);
  expect(lexicons(half && { ...half })).toBe(lexicons(half));
  expect(hearDetails('2 tins', lexicons(whole)).areasHa).toEqual([0.2]);
  expect(hearDetails('2 tins', lexicons(half)).areasHa).toEqual([0.1]);
});

describe('in a report', () => {
  const only = (text: string, lexicon = TINS) => {
    const { readings, unclear } = hear(text, lexicon, TODAY);
    expect(unclear).toBeNull();
    expect(readings).toHaveLength(1);
    return readings[0];
  };

  test.each([
    ['ploughed 2 tins of plot 3', 2],
    ['ploughed plot 3, half tin', 0.5],
    ['levelled plot 3 1 and half tins', 1.5],
  ])('"%s" is part of the plot, as with acres', (text, value) => {
    expect(only(text)).toMatchObject({
      stage: 'started',
      plots: ['3'],
      measures: { amount: { value, unit: OWN_UNIT } },
    });
    expect(only(text.replace('tin', 'acre'))).toMatchObject({ stage: 'started', plots: ['3'] });
  });

  test.each([
    'manured plot 1, 2 tins',
    'put 2 tins of manure on plot 1',
    'sowed nursery plot 1, 2 tins',
    'topdressed plot 1 with 2 tins',
    'applied 2 tins urea plot 1',
  ])('"%s" measures out what was put on: the plot is done', (text) => {
    const measures = { amount: { value: 2, unit: 'bucket' } };
    expect(only(text)).toMatchObject({ stage: 'finished', plots: ['1'], measures });
    expect(only(text)).toEqual(only(text, ENGLISH.lexicon));
  });

  test('a word that only the scheme has is a part of the plot in all work', () => {
    const lexicon = lexiconWith(ENGLISH.list, { words: ['zomba'], m2: 250 });
    expect(only('manured 2 zomba of plot 1', lexicon)).toMatchObject({
      stage: 'started',
      measures: { amount: { value: 2, unit: OWN_UNIT } },
    });
  });
});

describe.each(LANGUAGES)('in $lang', ({ list, lexicon, phrases }) => {
  const unit = { words: ['zubonka', 'zubonki'], m2: 250 };

  test('words that mean nothing are free, and heard as the unit', () => {
    for (const word of unit.words) {
      expect(whyTaken(word, lexicon)).toBeNull();
      expect(hearDetails(`3 ${word}`, lexiconWith(list, unit))).toMatchObject({ areasHa: [0.075] });
    }
  });

  test('the language’s own units are not, but for containers', () => {
    const words = Object.values(list.units)
      .filter(({ kind }) => kind !== 'amount')
      .flatMap((one) => one.words)
      .filter((word) => /^\p{L}[\p{L}\p{M}]+$/u.test(word));
    expect(words.length).toBeGreaterThan(5);
    expect(words.filter((word) => whyTaken(word, lexicon) === null)).toEqual([]);
  });

  test('what people text is read as without the unit', () => {
    const own = lexiconWith(list, unit);
    const today = phrases?.today ?? TODAY;
    const texts = phrases?.groups.flatMap((group) => group.texts.slice(0, 1)) ?? [];
    expect(texts.length).toBeGreaterThan(50);
    for (const text of texts) expect(hear(text, own, today), text).toEqual(hear(text, lexicon, today));
  });
});
