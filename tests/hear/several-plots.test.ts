import { describe, expect, test } from 'vitest';
import { hearEnglish, reportsIn } from './languages.ts';

describe('plots named one by one', () => {
  test.each([
    'plot 1, plot 2 and plot 5 all ploughed monday',
    'plots 1, 2 and 5 were all ploughed on monday',
    '1, 2 and 5 all ploughed monday',
  ])('"%s": "all" is the list itself', (text) => {
    expect(hearEnglish(text).readings).toMatchObject([{ plots: ['1', '2', '5'], on: '2027-03-08' }]);
  });

  test.each(['plots 1 and 2 all plots ploughed', 'plots 1 and 2 all except 3 ploughed'])(
    '"%s" is asked about',
    (text) => {
      expect(reportsIn(hearEnglish(text))).toEqual([]);
    },
  );
});

describe('a later plot with a day of its own', () => {
  test.each(['planted plot 2 yesterday, plot 3 tomorrow', 'planted plot 2 yesterday and plot 3 next friday'])(
    '"%s" is a plan where its day is to come',
    (text) => {
      expect(hearEnglish(text).readings).toMatchObject([
        { kind: 'report', plots: ['2'], on: '2027-03-09' },
        { kind: 'intend', plots: ['3'] },
      ]);
    },
  );

  test('what is not yet done is what is planned next', () => {
    expect(hearEnglish('plot 1 weeded, plot 2 not yet, will weed it friday').readings).toMatchObject([
      { kind: 'report', plots: ['1'] },
      { kind: 'not-done', plots: ['2'] },
      { kind: 'intend', plots: ['2'], on: '2027-03-12' },
    ]);
  });
});

describe('named plots, each with its day, behind one verb', () => {
  test.each([
    'plot 1 ploughed sunday plot 2 monday plot 3 tuesday',
    'ploughed plot 1 sunday plot 2 monday plot 3 tuesday',
  ])('"%s" is a report of each', (text) => {
    expect(hearEnglish(text).readings).toMatchObject([
      { plots: ['1'], on: '2027-03-07' },
      { plots: ['2'], on: '2027-03-08' },
      { plots: ['3'], on: '2027-03-09' },
    ]);
  });

  test.each([
    'ploughed 1 sunday 2 monday',
    'plot 1 ploughed sunday plot 2 monday plot 3',
    'not ploughed plot 1 sunday plot 2 monday',
  ])('"%s" reports nothing', (text) => {
    expect(reportsIn(hearEnglish(text))).toEqual([]);
  });
});
