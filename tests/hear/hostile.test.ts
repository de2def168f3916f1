import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { hearDetails } from '../../src/hear/hear-details.ts';
import { ENGLISH, hearEnglish, LANGUAGES, TODAY } from './languages.ts';

/** Thousands of texts on a busy machine. */
vi.setConfig({ testTimeout: 60_000 });

const NASTY = [
  '\u0000',
  '\ud800',
  '\udfff',
  '\u202e',
  '\u200d',
  'ﷺ',
  'e\u0301',
  '٣',
  '৩',
  '𝟛',
  'İ',
  '½',
  '²',
  '\u2028',
  '0',
  '-',
  '/',
  '.',
  "'",
  '?',
  '!',
];

for (const { lang, lexicon, list } of LANGUAGES) {
  describe(`any text at all in ${lang}`, () => {
    const words = Object.values(list.activities).flatMap((verb) => verb!.done);
    const piece = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 8 }),
      fc.constantFrom(
        ...NASTY,
        ...words,
        ...list.marks.not,
        ...list.plots.one,
        ...Object.keys(list.dates.offsets),
      ),
      fc.integer({ min: -5, max: 99_999 }).map(String),
    );
    const anything = fc
      .array(piece, { maxLength: 30 })
      .map((parts) => parts.join(fc.sample(fc.constantFrom(' ', '', ', '), 1)[0]));

    test('is heard without a fault, as data that JSON keeps', () => {
      fc.assert(
        fc.property(anything, (text) => {
          const heard = hear(text, lexicon, TODAY);
          expect(JSON.parse(JSON.stringify(heard))).toEqual(heard);
          expect(heard.unclear === null).toBe(heard.readings.length > 0);
          expect(hear(text, lexicon, TODAY)).toEqual(heard);
          hearDetails(text, lexicon);
        }),
        { numRuns: 1500 },
      );
    });
  });
}

describe('texts that are none', () => {
  test.each(['', '   ', '\n\n', '...', '!!!', '\u200b'])('%j is empty', (text) =>
    expect(hearEnglish(text).unclear?.why).toBe('empty'),
  );
  test.each(['🙏', '🌾🌾', '👍🏽!', '🇧🇩', '☀️...', ' ❤️ '])('%j is a greeting', (text) =>
    expect(hearEnglish(text)).toEqual({ readings: [], unclear: { why: 'greeting', choices: [] } }),
  );

  test('a longer text than a phone sends is declined', () => {
    expect(hearEnglish(`ploughed plot 3 ${'x'.repeat(1600)}`).unclear?.why).toBe('too-long');
    expect(hearEnglish('ploughed plot 3, '.repeat(81)).unclear?.why).toBe('too-long');
    expect(hearEnglish(`ploughed plot 3${' '.repeat(1700)}`).readings).toHaveLength(1);
  });

  test('a word list is ready in good time', () => {
    expect(ENGLISH.lexicon.words.size).toBeGreaterThan(500);
  });
});
