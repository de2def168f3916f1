import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { hearEnglish, LANGUAGES, reportsIn, TODAY } from './languages.ts';

const FRENCH = LANGUAGES.find(({ lang }) => lang === 'fr')!;
const hearFrench = (text: string) => hear(text, FRENCH.lexicon, TODAY);

describe('one of two works', () => {
  test('is asked back with both', () => {
    const choices = [{ activity: 'plough' }, { activity: 'puddle' }];
    const asked = { readings: [], unclear: { why: 'two-meanings', choices } };
    expect(hearEnglish('ploughed or puddled plot 3 yesterday')).toMatchObject(asked);
    expect(hearFrench('labouré ou mis en boue parcelle 3 hier')).toMatchObject(asked);
  });

  test('both are recorded when both were done', () => {
    expect(hearEnglish('ploughed and puddled plot 3 yesterday').readings).toHaveLength(2);
  });
});

describe('a plot named last and denied', () => {
  const oneNotTwo = [
    { kind: 'report', activity: 'plough', plots: ['1'] },
    { kind: 'not-done', activity: 'plough', plots: ['2'] },
  ];

  test('leaves the plots before it done', () => {
    expect(hearEnglish('ploughed plot 1, plot 2 not yet').readings).toMatchObject(oneNotTwo);
    expect(hearFrench('labouré la 1, la 2 pas encore').readings).toMatchObject(oneNotTwo);
  });

  test('takes none along that could be denied behind it', () => {
    expect(hearEnglish('ploughed plot 1, plot 2 not plot 3').readings).toEqual([]);
  });
});

describe('a note of what was put where', () => {
  test('is a report of today', () => {
    const put = [{ kind: 'report', activity: 'topdress', plots: ['3'], on: '2027-03-10' }];
    expect(hearEnglish('urea plot 3 1 bag').readings).toMatchObject(put);
    expect(hearFrench("2 sacs d'urée p3 aujourd'hui").readings).toMatchObject(put);
  });

  test.each([
    'urea plot 3',
    'urea plot 3 1 bag on Monday',
    'have urea plot 3 1 bag',
    'urea 1 bag',
    'urea plot 3 1 bag?',
  ])('is none: %s', (text) => expect(reportsIn(hearEnglish(text))).toEqual([]));

  test.each([
    "il y a 2 sacs d'urée p3",
    "2 sacs d'urée pour p3",
    "2 sacs d'urée p3 demain",
    "2 sacs d'urée p3 svp",
  ])('is none: %s', (text) => expect(reportsIn(hearFrench(text))).toEqual([]));
});

describe('"not finished" behind work under way', () => {
  test('says that it goes on', () => {
    const begun = [{ kind: 'report', activity: 'plough', stage: 'started', plots: ['3'] }];
    expect(hearEnglish('started ploughing plot 3, not finished').readings).toMatchObject(begun);
    expect(hearFrench('commencé à labourer la 3, pas encore fini').readings).toMatchObject(begun);
  });

  test('is asked back behind work that was done', () => {
    expect(hearEnglish('ploughed plot 3, not finished').readings).toEqual([]);
    expect(hearEnglish('started ploughing plot 3 yesterday, not finished today').readings).toEqual([]);
  });
});

describe('a word for all right before the verb', () => {
  const ploughed = (plots: readonly string[]) => [{ kind: 'report', activity: 'plough', plots }];

  test('means all plots, or all of the plots that are named', () => {
    expect(hearFrench("j'ai tout labouré").readings).toMatchObject(ploughed(['all']));
    expect(hearFrench("j'ai tout labouré la 3").readings).toMatchObject(ploughed(['3']));
  });

  test('leaves exceptions and orders alone', () => {
    expect(hearFrench("j'ai tout labouré sauf la 3").readings).toEqual([]);
    expect(reportsIn(hearEnglish('have plot 3 ploughed'))).toEqual([]);
  });
});

test('a weekday of last week is found with "last" before the week or behind it', () => {
  const monday = [{ kind: 'report', plots: ['3'], on: '2027-03-01' }];
  expect(hearEnglish('ploughed plot 3 monday last week').readings).toMatchObject(monday);
  expect(hearFrench('labouré la 3 lundi de la semaine passée').readings).toMatchObject(monday);
  expect(hearFrench('labouré la 3 la semaine passée').unclear).toMatchObject({ why: 'which-day' });
});

test.each(['ajouter A +447700900123', 'ajouter bloc A +447700900123', 'ajouter +447700900123 au bloc A'])(
  'a number to add stands before its block or behind it: %s',
  (text) =>
    expect(hearFrench(text).readings).toMatchObject([
      { kind: 'agent', what: 'add', block: 'A', text: '+447700900123' },
    ]),
);

test('a length behind a thing that has a height is no depth', () => {
  const measuresOf = (text: string) =>
    hearFrench(text).readings.map((one) => 'measures' in one && one.measures);
  expect(measuresOf('repiqué la 1, plants de 20 cm')).toEqual([{ heightCm: 20 }]);
  expect(measuresOf("mis les plants p2 dans 3 cm d'eau")).toEqual([{ depthCm: 3 }]);
});

test('an amount behind a day and its month leaves the day alone', () => {
  expect(hearEnglish('sowed nursery 4 March 25 kg').readings).toMatchObject([{ on: '2027-03-04' }]);
  expect(hearEnglish('ploughed 4 March 2').readings).toEqual([]);
});

describe('amounts in bags', () => {
  const amountOf = (text: string) =>
    hearEnglish(text).readings.map((one) => 'measures' in one && one.measures);
  const bags = (value: number) => [{ amount: { value, unit: 'bag' } }];

  test('of so many kilos stay bags', () => {
    expect(amountOf('put 2 bags of 50 kg urea on plot 3')).toEqual(bags(2));
    expect(amountOf('harvested plot 2, 15 bags of 80 kg')).toEqual(bags(15));
  });

  test('take the half behind them along', () => {
    expect(amountOf('put 1 bag and a half urea on plot 4')).toEqual(bags(1.5));
    expect(hearFrench("mis 1 sac et demi d'urée p4").readings).toMatchObject([{ measures: bags(1.5)[0] }]);
  });
});

test('fertiliser by the bag on a plot asks for no sum', () => {
  expect(hearEnglish('fertiliser 2 bags plot 3').unclear).toMatchObject({ why: 'two-meanings' });
  expect(hearEnglish('fertiliser 0.4 ha plot 3').readings).toMatchObject([{ kind: 'sum', sum: 'nutrients' }]);
});
