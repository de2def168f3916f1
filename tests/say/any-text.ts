import fc from 'fast-check';

const CODE_POINT = fc.oneof(
  fc.integer({ min: 0, max: 0x24f }),
  fc.integer({ min: 0, max: 0xffff }),
  fc.integer({ min: 0x1f300, max: 0x1faff }),
  fc.integer({ min: 0, max: 0x10ffff }),
);

/** Any text at all, halves of surrogate pairs and control characters among it. */
export function anyText(maxLength: number): fc.Arbitrary<string> {
  return fc.string({ unit: CODE_POINT.map((code) => String.fromCodePoint(code)), maxLength, size: 'max' });
}
