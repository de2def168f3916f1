/** What a word list may say of its language beyond its words: each tried on the English list with that data added. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { readWords } from '../../src/hear/read-words.ts';
import { TODAY } from './languages.ts';

interface Raw {
  readonly activities: Record<string, object>;
  readonly plots: object;
  readonly dates: { readonly on: readonly string[] };
  readonly meanings: readonly object[];
  readonly articles: readonly string[];
}

const raw = JSON.parse(readFileSync(new URL('../../locales/en/words.json', import.meta.url), 'utf8')) as Raw;

const read = readWords({
  ...raw,
  decimalComma: true,
  elisions: ['l'],
  doneEndings: ['é'],
  activities: {
    ...raw.activities,
    drain: { ...raw.activities['drain'], done: ['vide'], plain: ['vide'], present: ['je vide'] },
  },
  meanings: [...raw.meanings, { thing: 'nursery', means: ['sow-nursery'], staged: true }],
  plots: { ...raw.plots, article: ['la'], articles: ['les'] },
  dates: { ...raw.dates, on: [...raw.dates.on, 'le'], numbered: ['le'] },
  articles: [...raw.articles, 'la', 'les', 'le', 'l'],
});
if (!read.ok) throw new Error(read.mistakes.join('\n'));

const heard = (text: string) => hear(text, read.lexicon, TODAY);

test.each([
  ["ploughed l'plot 3", { plots: ['3'] }],
  ['ploughed plot 3 12,5 cm', { plots: ['3'], measures: { depthCm: 12.5 } }],
  ['ploughed plot 3,12 cm', { plots: ['3'], measures: { depthCm: 12 } }],
  ['ploughed la 3', { plots: ['3'] }],
  ['ploughed la 3 yesterday', { plots: ['3'], on: '2027-03-09' }],
  ['ploughed les 1 and 2', { plots: ['1', '2'] }],
  ['ploughed la 3rd', { plots: ['3'], on: '2027-03-10' }],
  ['ploughed la 3 le 8', { plots: ['3'], on: '2027-03-08' }],
  ['ploughed plot 3 monday 8', { plots: ['3'], on: '2027-03-08' }],
  ['vidé plot 3', { activity: 'drain', plots: ['3'] }],
  ['plot 3 vide', { activity: 'drain', plots: ['3'] }],
  ['nursery plot 3 finished', { activity: 'sow-nursery', plots: ['3'] }],
])('"%s" is a report', (text, expected) => {
  expect(heard(text)).toMatchObject({ readings: [{ kind: 'report', ...expected }], unclear: null });
});

test.each([
  ['ploughed les 2', 'which-plot'],
  ['ploughed 3,5 cm', 'which-plot'],
  ['ploughed le 3', 'two-meanings'],
  ['soaked seed of krakas5 yesterday', 'which-plot'],
  ['soaked seed of krakas 5 yesterday', 'which-plot'],
  ['ploughed plot 3 monday 9', 'which-day'],
  ['vide plot 3', 'two-meanings'],
  ['je vide plot 3', 'two-meanings'],
])('"%s" is asked back: %s', (text, why) => {
  expect(heard(text)).toMatchObject({ readings: [], unclear: { why } });
});

describe('a form that is under way or to come', () => {
  const kinds = (text: string) => heard(text).readings.map(({ kind }) => kind);
  test('with a day to come is a plan', () => expect(kinds('je vide plot 3 tomorrow')).toEqual(['intend']));
  test('with an accent was done', () => expect(kinds('je vidé plot 3')).toEqual(['report']));
});

test.each(['nursery plot 3', 'rats finished the nursery', 'la 3rd rain of the year has started'])(
  '"%s" reports no work',
  (text) => {
    expect(heard(text).readings.filter(({ kind }) => kind === 'report')).toEqual([]);
  },
);

describe('whatever the language', () => {
  test.each([
    ['ploughed plot 3 to 12 cm', { plots: ['3'], measures: { depthCm: 12 } }],
    ['ploughed plot 3 at 9hrs30', { plots: ['3'] }],
    ['put npk 15-15-15 plot 3 yesterday', { plots: ['3'], on: '2027-03-09' }],
  ])('"%s"', (text, expected) => expect(heard(text).readings).toMatchObject([expected]));

  test('a plan for all plots on a day in figures names no two plots', () => {
    expect(heard('will harvest all plots on 20/4').readings).toMatchObject([
      { kind: 'intend', plots: ['all'], on: '2027-04-20' },
    ]);
  });

  test('a trouble told in two pieces is one', () => {
    expect(heard('plot 3 flooded out, too much water').readings).toMatchObject([
      { what: 'flooded-out', plots: ['3'] },
    ]);
    expect(heard('river burst in plot 2, rice lost').readings).toHaveLength(1);
  });

  test('a thing behind a phrase that names every plot is not what is all', () => {
    expect(heard('flooded every plot rice is fine').readings).toMatchObject([
      { activity: 'flood', plots: ['all'] },
    ]);
    expect(heard('flooded all the rice').readings).toMatchObject([{ activity: 'flood', plots: [] }]);
  });

  test('the figures behind one plot are no plots', () => {
    expect(heard('levels plot 3 12 15 9').readings).toMatchObject([
      { sum: 'level', plots: ['3'], values: [12, 15, 9] },
    ]);
  });

  test('two figures between seed and germination are a test of seed', () => {
    expect(heard('seed 100 germination 85').readings).toMatchObject([
      { sum: 'germination', values: [100, 85] },
    ]);
    expect(heard('seed 0.4 germination').readings).toMatchObject([{ sum: 'seed', values: [0.4] }]);
  });

  test('"stop please" stops, and the plot of another is asked about', () => {
    expect(heard('stop please').readings).toMatchObject([{ kind: 'account', what: 'stop' }]);
    expect(heard('ploughed plot 3 of my neighbour').unclear?.why).toBe('two-meanings');
  });

  test.each(['block A ready', 'ready block A'])('%s', (text) => {
    expect(heard(text).readings).toMatchObject([{ kind: 'agent', what: 'ready', block: 'A' }]);
  });

  test('a thing and an area alone may ask how much of it', () => {
    expect(heard('urea 2 acres').unclear?.why).toBe('two-meanings');
    expect(heard('urea 2 acres yesterday').readings).toMatchObject([
      { activity: 'topdress', stage: 'started' },
    ]);
  });

  test('the tiller of a block may have its day', () => {
    const tiller = { kind: 'agent', what: 'tiller', block: 'A' };
    expect(heard('tiller A 12/3').readings).toMatchObject([{ ...tiller, on: '2027-03-12' }]);
    expect(heard('tiller block A').readings).toMatchObject([tiller]);
    expect(heard('tiller block A broken').readings).not.toMatchObject([tiller]);
  });

  test('a number to add may name its block', () => {
    expect(heard('add +447700900123 block A').readings).toMatchObject([
      { kind: 'agent', what: 'add', text: '+447700900123', block: 'A' },
    ]);
  });
});
