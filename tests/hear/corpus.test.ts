import { describe, expect, test, vi } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { LANGUAGES, reportsIn } from './languages.ts';

/** Thousands of texts on a busy machine. */
vi.setConfig({ testTimeout: 60_000 });

for (const { lang, lexicon, phrases, refusals } of LANGUAGES) {
  describe(`corpus of ${lang}`, () => {
    test('has phrases and refusals', () => {
      expect(phrases?.groups.length).toBeGreaterThan(0);
      expect(refusals?.neverReport.length).toBeGreaterThan(0);
    });

    for (const { reads, texts } of phrases?.groups ?? []) {
      test.each(texts)('reads "%s"', (text) => {
        const heard = hear(text, lexicon, phrases!.today);
        expect(heard.unclear).toBeNull();
        expect(heard.readings).toHaveLength(reads.length);
        expect(heard.readings).toMatchObject(reads);
      });
    }

    for (const [why, texts] of Object.entries(refusals?.unclear ?? {})) {
      test.each(texts)(`${why}: "%s"`, (text) => {
        const heard = hear(text, lexicon, refusals!.today);
        expect(heard).toMatchObject({ readings: [], unclear: { why } });
      });
    }

    test.each([...(refusals?.neverReport ?? [])])('never a report: "%s"', (text) => {
      expect(reportsIn(hear(text, lexicon, refusals!.today))).toEqual([]);
    });

    test.each([...(refusals?.neverReport ?? [])])('never a report in capitals: "%s"', (text) => {
      expect(reportsIn(hear(text.toUpperCase(), lexicon, refusals!.today))).toEqual([]);
    });

    test('reads the same in capitals and with a full stop', () => {
      const texts = (phrases?.groups ?? [])
        .flatMap((group) => group.texts)
        .filter((text) => !/[a-z]\s*-?\d|-/i.test(text));
      const plain = (text: string) => JSON.stringify(hear(text, lexicon, phrases!.today)).toLowerCase();
      for (const text of texts) expect(plain(text.toUpperCase()), text).toBe(plain(text));
    });
  });
}
