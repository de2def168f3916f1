import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { ENGLISH, LANGUAGES, TODAY } from './languages.ts';

/** Thousands of texts on a busy machine. */
vi.setConfig({ testTimeout: 60_000 });

for (const { lang, lexicon, phrases } of LANGUAGES) {
  describe(`what stands round a message in ${lang}`, () => {
    const texts = (phrases?.groups ?? [])
      .filter((group) =>
        group.reads.every((reading) => ['report', 'not-done', 'intend', 'trouble'].includes(reading.kind!)),
      )
      .flatMap((group) => group.texts);
    const text = fc.constantFrom(...texts);
    const same = (a: string, b: string) =>
      expect(hear(b, lexicon, TODAY), b).toEqual(hear(a, lexicon, TODAY));

    test('emoji change nothing', () => {
      fc.assert(
        fc.property(text, fc.constantFrom('😀', '🌾🌾', '👍🏽', '🙏', '👨‍👩‍👧', '✅', '☀️'), (said, emoji) => {
          same(said, `${said} ${emoji}`);
          same(said, `${emoji} ${said}${emoji}`);
        }),
      );
    });

    test('stray spaces and lines change nothing', () => {
      fc.assert(
        fc.property(text, (said) => {
          same(said, `  ${said.replaceAll(' ', '  ')}\t`);
          same(said, `\n${said}\n`);
        }),
      );
    });
  });
}

describe('signatures and greetings in English', () => {
  const texts = ENGLISH.phrases!.groups.filter((group) =>
    group.reads.every((reading) => reading.kind === 'report'),
  )
    .flatMap((group) => group.texts)
    .filter((said) => !/^(hi|hie|good|gud|sir|boss|sam|this|yes|no|ok)\b|[?-]|(sam|phone)$/i.test(said));

  test.each([
    '{t} - from Kofi',
    '{t}. Regards Kofi Mensah',
    '{t}\nKofi',
    '{t}. Sent from my phone',
    '{t} - Kofi',
    '{t}. from Kofi',
  ])('signature: %s', (form) => {
    for (const said of texts) {
      expect(hear(form.replace('{t}', said), ENGLISH.lexicon, TODAY).readings, said).toEqual(
        hear(said, ENGLISH.lexicon, TODAY).readings,
      );
    }
  });

  test.each(['Hello, {t}', 'Good morning sir {t}', 'Hi Kofi, {t}', 'Kofi here: {t}'])(
    'greeting: %s',
    (form) => {
      for (const said of texts) {
        expect(hear(form.replace('{t}', said), ENGLISH.lexicon, TODAY).readings, said).toEqual(
          hear(said, ENGLISH.lexicon, TODAY).readings,
        );
      }
    },
  );
});
