import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { hearEnglish, LANGUAGES, TODAY } from './languages.ts';

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
