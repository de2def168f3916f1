import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { GSM_CHARACTERS } from '../../src/say/gsm.ts';
import { measure, splitParts } from '../../src/say/parts.ts';
import { anyText } from './any-text.ts';
import { type Cut, cutByClusters, cutByUnits } from './two-libraries.ts';

const ours = (text: string): Cut => ({ encoding: measure(text).encoding, parts: splitParts(text) });

const textOf = (...signs: readonly string[]) =>
  fc.string({ unit: fc.constantFrom(...signs), maxLength: 340, size: 'max' });
const letters = fc.integer({ min: 0x20, max: 0x1ef9 }).map((code) => String.fromCharCode(code));

/** Kinds of text with the least share on which the two packages have to agree: they differ on clusters of several characters. */
const KINDS: readonly (readonly [kind: string, texts: fc.Arbitrary<string>, leastShare: number])[] = [
  ['the GSM alphabet', textOf(...GSM_CHARACTERS.basic, ...GSM_CHARACTERS.extension), 1],
  ['pairs and line ends', textOf(...GSM_CHARACTERS.extension, 'a', '\r', '\n'), 1],
  ['letters of several scripts and pictures', textOf(...'abcêçŋɓ水田稻অকখগনমরল১২৩€[😀🌾🚜💧'), 1],
  ['letters and marks', fc.string({ unit: letters, maxLength: 220, size: 'max' }), 0.7],
  ['clusters', textOf('a', 'e\u0301', 'রো', 'প', '👩🏽‍🌾', '🇰🇪', '1\ufe0f\u20e3', '😀', '€', '\r\n'), 0.15],
  ['anything', anyText(340), 0.85],
];

test.each(KINDS)('where both packages agree, ours is the same: %s', (_, texts, leastShare) => {
  let [all, agreeing, cut] = [0, 0, 0];
  fc.assert(
    fc.property(texts, (text) => {
      const [first, second] = [cutByClusters(text), cutByUnits(text)];
      all += 1;
      if (!isDeepStrictEqual(first, second)) return;
      agreeing += 1;
      if (first.parts.length > 1) cut += 1;
      expect(ours(text)).toEqual(first);
    }),
    { numRuns: 700 },
  );
  expect(all).toBeGreaterThanOrEqual(700);
  expect(agreeing / all).toBeGreaterThanOrEqual(leastShare);
  expect(cut / all).toBeGreaterThan(leastShare / 4);
});

test('where they differ, the one that counts units as the standard does is ours, unless half a pair is in the text', () => {
  let differing = 0;
  fc.assert(
    fc.property(fc.oneof(...KINDS.map(([, texts]) => texts)), (text) => {
      fc.pre(!/\p{Cs}/u.test(text));
      if (!isDeepStrictEqual(cutByClusters(text), cutByUnits(text))) differing += 1;
      expect(ours(text)).toEqual(cutByUnits(text));
    }),
    { numRuns: 1000 },
  );
  expect(differing).toBeGreaterThan(50);
});
