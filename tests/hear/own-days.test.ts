import { describe, expect, test } from 'vitest';
import { hearEnglish, reportsIn } from './languages.ts';

const PAIRS = [
  ['1 yesterday', '2 today'],
  ['plot 1 on monday', 'plot 2 on tuesday'],
  ['yesterday 1', 'today 2'],
  ['1 on 8/3', '2 on 9.3'],
] as const;

describe('plots with days of their own', () => {
  test.each(PAIRS)('"ploughed %s, %s" is a report for each', (first, second) => {
    for (const joint of [', ', ' and ', ' n ', ' & ']) {
      const said = reportsIn(hearEnglish(`ploughed ${first}${joint}${second}`));
      expect(said, joint).toMatchObject([
        { activity: 'plough', plots: ['1'] },
        { activity: 'plough', plots: ['2'] },
      ]);
      expect(new Set(said.map((one) => one.kind === 'report' && one.on)).size, joint).toBe(2);
    }
  });

  test.each(['not', 'never', 'he', 'maybe', 'bram', 'will have', 'if i'])(
    '"%s" before it records neither',
    (lead) => {
      for (const [first, second] of PAIRS)
        expect(reportsIn(hearEnglish(`${lead} ploughed ${first}, ${second}`)), first).toEqual([]);
    },
  );

  test.each(['levelled', 'then flooded', 'and weeded'])('"%s" behind it could be about either', (tail) => {
    expect(reportsIn(hearEnglish(`ploughed 1 yesterday and 2 today, ${tail}`))).toEqual([]);
  });
});
