import { describe, expect, test } from 'vitest';
import { hearEnglish, reportsIn } from './languages.ts';

describe('a thing with an amount and a plot, and no verb', () => {
  test.each([
    'urea p3 1 bag',
    'plot 3 urea 1 bag',
    'today 1 bag urea for plot 3',
    '1 bag urea to plot 3 today',
  ])('"%s" reports', (text) => {
    expect(hearEnglish(text).readings).toMatchObject([
      {
        kind: 'report',
        activity: 'topdress',
        plots: ['3'],
        on: '2027-03-10',
        measures: { amount: { value: 1 } },
      },
    ]);
  });

  test.each([
    'urea 1 bag',
    'urea plot 3',
    '1 bag urea for plot 3',
    'i have 1 bag urea plot 3',
    'urea plot 3 1 bag friday',
    '1 bag urea stolen plot 3',
    'urea plot 3 1 bag?',
    'urea plot 3 1 bag after rain',
    'urea plot 3 1 bag is with me',
    '2 bags urea at plot 3 waiting',
    'is 1 bag urea ok plot 3',
    '2 bags urea plot 3 needed',
    'bring 1 bag urea plot 3',
  ])('"%s" reports nothing', (text) => {
    expect(reportsIn(hearEnglish(text))).toEqual([]);
  });

  test('a day to come makes it a plan', () => {
    expect(hearEnglish('urea plot 3 1 bag tomorrow').readings).toMatchObject([{ kind: 'intend' }]);
  });
});
