import { describe, expect, test } from 'vitest';
import { hearEnglish } from './languages.ts';

describe('a verb that could be of two works where no plot is named', () => {
  test.each(['soaked yesterday', 'soaking done'])('"%s" is asked about', (text) => {
    expect(hearEnglish(text)).toMatchObject({
      readings: [],
      unclear: { choices: [{ activity: 'soak' }, { activity: 'pregerminate' }] },
    });
  });

  test.each([
    'soaked plot 3',
    'cleared plot 3 and soaked it',
    'plot 3, soaked',
    'soaked the land',
    'land soaking done',
  ])('"%s" is not', (text) => {
    expect(hearEnglish(text).readings.at(-1)).toMatchObject({ kind: 'report', activity: 'soak' });
  });
});
