import { describe, expect, test } from 'vitest';
import { hearEnglish } from './languages.ts';

describe('a day that leads a piece without a verb', () => {
  test.each([
    'yesterday the tractor came and ploughed plot 3',
    'yesterday the tiller came and ploughed plot 3',
  ])('"%s": the day is that of the work, and whoever did it is no news', (text) => {
    expect(hearEnglish(text).readings).toMatchObject([
      { kind: 'report', activity: 'plough', plots: ['3'], on: '2027-03-09' },
    ]);
  });

  test('"we" did the work: that the tractor is there is news', () => {
    expect(hearEnglish('yesterday the tractor came back and we ploughed plot 3').readings).toMatchObject([
      { kind: 'trouble', what: 'no-machine', over: true },
      { kind: 'report', on: '2027-03-09' },
    ]);
  });

  test.each(['yesterday no water, ploughed plot 3', 'yesterday no water but ploughed plot 3'])(
    '"%s": whose day it is cannot be told',
    (text) => {
      expect(hearEnglish(text)).toMatchObject({ readings: [], unclear: { why: 'which-day' } });
    },
  );

  test('a day that is the whole piece belongs to the work before it', () => {
    expect(hearEnglish('ploughed plot 2, i forgot the day').readings).toMatchObject([{ on: null }]);
  });
});
