import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { ENGLISH, reportsIn, TODAY } from './languages.ts';

const heard = (text: string) => hear(text, ENGLISH.lexicon, TODAY);
const done = (activity: string, plots: readonly string[]) => ({
  kind: 'report',
  activity,
  stage: 'finished',
  plots,
});

describe('a form that is plain and past goes on as the verb before it', () => {
  test('"weeded and put urea" tells of both', () => {
    expect(heard('weeded plot 1 and put urea').readings).toMatchObject([
      done('weed', ['1']),
      done('topdress', ['1']),
    ]);
  });

  test.each(['put urea plot 1', 'will weed plot 1 and put urea', 'weeded plot 1? and put urea'])(
    '"%s" tells of none',
    (text) => {
      expect(reportsIn(heard(text))).not.toContainEqual(expect.objectContaining({ activity: 'topdress' }));
    },
  );
});

describe('work of which only one was done', () => {
  test.each([
    'ploughed or puddled plot 3 yesterday',
    'weeded plot 1 or drained plot 2',
    'we cleared or ploughed plot 3',
  ])('"%s" is asked about', (text) => {
    expect(heard(text)).toMatchObject({ readings: [], unclear: { why: 'two-meanings' } });
  });

  test('"and" tells of both', () => {
    expect(heard('ploughed and puddled plot 3 yesterday').readings).toHaveLength(2);
  });
});

describe('a stage behind several works', () => {
  test.each([
    'weeding and top dressing plot 1 done',
    'plot 1 weeding and top dressing done',
    'weeding, top dressing plot 1 done',
  ])('"%s" finishes both', (text) => {
    expect(heard(text).readings).toMatchObject([done('weed', ['1']), done('topdress', ['1'])]);
  });

  test.each([
    'weeding plot 1 and top dressing plot 2 done',
    'weeding plot 1, top dressing done',
    'weeding and harvesting plot 2 not done',
    'ploughing and levelling still not done plot 3',
    'weeding or ploughing done plot 2',
  ])('"%s" may finish the last alone', (text) => {
    expect(reportsIn(heard(text))).toEqual([]);
  });

  test('a stage before the second work is its own', () => {
    expect(heard('weeding plot 1 and finished levelling plot 2').readings).toMatchObject([
      { activity: 'weed', stage: 'started' },
      { activity: 'level', stage: 'finished' },
    ]);
  });
});
