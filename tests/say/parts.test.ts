import fc from 'fast-check';
import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, test } from 'vitest';
import { GSM_CHARACTERS, gsmSeptets, septetsOf } from '../../src/say/gsm.ts';
import { measure, splitParts } from '../../src/say/parts.ts';
import { anyText } from './any-text.ts';
import { cutByClusters, cutByUnits } from './two-libraries.ts';

const a = (times: number) => 'a'.repeat(times);
const e = (times: number) => 'ê'.repeat(times);

describe('the alphabet', () => {
  test('has 127 characters of one septet and ten of two', () => {
    const costs = Array.from({ length: 0x10000 }, (_, code) => septetsOf(code));
    expect(costs.filter((cost) => cost === 1)).toHaveLength(127);
    expect(costs.filter((cost) => cost === 2)).toHaveLength(10);
  });

  test.each([...'çâêîôûëïÿœÀÈÙ«»’“”–—…°·`\t\u00a0\u202f\u02bc\u001b'])('lacks %j', (char) => {
    expect(gsmSeptets(char)).toBeNull();
  });
});

describe('parts', () => {
  test.each<[string, string, number[]]>([
    ['160 letters', a(160), [160]],
    ['161 letters', a(161), [153, 8]],
    ['306 letters', a(306), [153, 153]],
    ['307 letters', a(307), [153, 153, 1]],
    ['a pair that just fits', `${a(158)}€`, [160]],
    ['a pair one too far', `${a(159)}€`, [153, 8]],
    ['a pair at the cut', `${a(152)}€${a(152)}`, [152, 153, 1]],
    ['80 pairs', '€'.repeat(80), [160]],
    ['81 pairs', '€'.repeat(81), [152, 10]],
    ['a line end of two', `${a(159)}\r\n`, [153, 8]],
  ])('GSM-7: %s', (_, text, septets) => {
    expect(measure(text)).toEqual({
      encoding: 'GSM-7',
      units: septets.reduce((sum, n) => sum + n, 0),
      parts: septets.length,
    });
    expect(splitParts(text).map(gsmSeptets)).toEqual(septets);
    for (const cut of [cutByClusters, cutByUnits]) expect(cut(text).parts).toEqual(splitParts(text));
  });

  test.each<[string, string, number[]]>([
    ['70 letters', e(70), [70]],
    ['71 letters', e(71), [67, 4]],
    ['a picture that just fits', `${e(68)}😀`, [70]],
    ['a picture at the cut', `${e(66)}😀${e(66)}`, [66, 67, 1]],
    ['one stray letter', `${a(159)}ê`, [67, 67, 26]],
  ])('UCS-2: %s', (_, text, units) => {
    expect(measure(text)).toEqual({
      encoding: 'UCS-2',
      units: units.reduce((sum, n) => sum + n, 0),
      parts: units.length,
    });
    expect(splitParts(text).map((part) => part.length)).toEqual(units);
    for (const cut of [cutByClusters, cutByUnits]) expect(cut(text).parts).toEqual(splitParts(text));
  });

  test('an empty text is one part of nothing', () => {
    expect(measure('')).toEqual({ encoding: 'GSM-7', units: 0, parts: 1 });
    expect(splitParts('')).toEqual(['']);
  });

  test('half a surrogate pair counts as one unit and harms nothing', () => {
    expect(measure('\ud83d')).toEqual({ encoding: 'UCS-2', units: 1, parts: 1 });
    expect(splitParts(`${'\udc00'.repeat(70)}\ud83d`).join('')).toBe(`${'\udc00'.repeat(70)}\ud83d`);
  });
});

/**
 * The second opinion counts grapheme clusters, so it keeps "n" + U+0303 or a flag together where the standard counts units.
 * The alphabets below hold no combining marks, joiners or regional letters: there the two must agree to the unit.
 */
const GSM = fc.constantFrom(...GSM_CHARACTERS.basic, ...GSM_CHARACTERS.extension);
const MOSTLY_PAIRS = fc.constantFrom(...GSM_CHARACTERS.extension, 'a', '\r', '\n');
const WIDE = fc.constantFrom(...'abcêçŋɓ水田稻অকখগনমরল১২৩€[😀🌾🚜💧');
const texts = fc.oneof(
  ...[GSM, MOSTLY_PAIRS, WIDE].map((unit) => fc.string({ unit, maxLength: 340, size: 'max' })),
);

describe('for any text', () => {
  test('the reference calculator cuts at the same places', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const reference = new SegmentedMessage(text);
        const size = measure(text);
        expect(size.encoding).toBe(reference.encodingName);
        expect(size.parts).toBe(reference.segmentsCount);
        const lengths = reference.segments.map((segment) => segment.messageSizeInBits());
        const bits = size.encoding === 'GSM-7' ? 7 : 16;
        expect(splitParts(text).map((part) => unitsIn(part, size.encoding) * bits)).toEqual(lengths);
      }),
      { numRuns: 60 },
    );
  });

  test('the parts joined are the text, and each fits', () => {
    fc.assert(
      fc.property(fc.oneof(texts, anyText(400)), (text) => {
        const parts = splitParts(text);
        expect(parts.join('')).toBe(text);
        expect(parts).toHaveLength(measure(text).parts);
        const { encoding } = measure(text);
        const room = { 'GSM-7': [160, 153], 'UCS-2': [70, 67] }[encoding][parts.length === 1 ? 0 : 1];
        for (const part of parts) expect(unitsIn(part, encoding)).toBeLessThanOrEqual(room ?? 0);
      }),
      { numRuns: 150 },
    );
  });

  test('no pair is cut in two', () => {
    fc.assert(
      fc.property(anyText(300), (text) => {
        const parts = splitParts(text);
        const cut = parts.filter(
          (part, i) => /^[\udc00-\udfff]/.test(part) && /[\ud800-\udbff]$/.test(parts[i - 1] ?? ''),
        );
        expect(cut).toEqual([]);
      }),
    );
  });
});

function unitsIn(part: string, encoding: 'GSM-7' | 'UCS-2'): number {
  return encoding === 'GSM-7' ? (gsmSeptets(part) ?? Number.NaN) : part.length;
}
