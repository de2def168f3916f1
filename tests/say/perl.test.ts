import { describe, expect, test } from 'vitest';
import { GSM_CHARACTERS, gsmSeptets, septetsOf } from '../../src/say/gsm.ts';
import { measure, type Size, splitParts } from '../../src/say/parts.ts';
import { readPerlTable } from './perl-table.ts';

const table = readPerlTable();
if (table === null) process.stderr.write('perl is not installed: its alphabet is not compared\n');

const PLANE = Array.from({ length: 0x10000 }, (_, code) => code);
const name = (code: number) => `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
const perlCost = (code: number) => table?.septets.get(code)?.length ?? 0;

/**
 * Where tables of this alphabet are known to differ, with what 3GPP TS 23.038 (6.2.1 and 6.2.1.1; its rows as in Perl's module, its
 * remarks from memory) has. Both tables must take the standard's side, so no difference is left to be excused: 0 is not in the
 * alphabet, 1 basic, 2 by way of the extension table.
 */
const DISPUTED: readonly (readonly [code: number, septets: number, why: string])[] = [
  [0x00e7, 0, 'septet 0x09 is capital C with cedilla; old tables of Unicode read the small letter there'],
  [0x00c7, 1, 'the same septet 0x09, as the standard draws and names it'],
  [0x000a, 1, 'line feed is septet 0x0A'],
  [0x000c, 2, 'page break is 0x1B 0x0A, a line feed on phones that lack the extension table'],
  [
    0x000d,
    1,
    'carriage return is septet 0x0D; it also pads the last octet of a packed text, on the wire only',
  ],
  [0x001b, 0, 'septet 0x1B leads to the extension table and is no character by itself'],
  [0x00a0, 0, 'a phone may show 0x1B as a space; some tables read it as the space that does not break'],
  [0x0000, 0, 'septet 0x00 is the commercial at, not NUL'],
  [0x0040, 1, 'septet 0x00: the Perl module mistook it for padding until 2.7 (its own notes, "BUGS")'],
  [0x0060, 0, 'septet 0x27 is the apostrophe, and there is no backtick'],
  [0x005f, 1, 'low line is septet 0x11'],
  [0x00a4, 1, 'septet 0x24 is the currency sign, and the dollar stands at 0x02'],
  [0x0024, 1, 'septet 0x02'],
  [0x20ac, 2, 'euro is 0x1B 0x65, added with the extension table'],
  [
    0x0391,
    0,
    'capital alpha looks like A and is written as A; only ten Greek capitals have septets of their own',
  ],
  [0x0394, 1, 'capital delta is one of the ten, septet 0x10'],
  [0x2206, 0, 'the sign for increment only looks like delta'],
  [0x03a9, 1, 'capital omega is septet 0x15'],
  [0x2126, 0, 'the sign for ohm is omega only after NFC'],
  [0x00b5, 0, 'the micro sign is in no row'],
  [0xd800, 0, 'half a surrogate pair is no character'],
  [0xffff, 0, 'not a character of Unicode'],
];

describe.skipIf(table === null)(`the table of Perl's Encode::GSM0338 ${table?.version ?? ''}`, () => {
  test('has the same characters at the same cost in the whole Basic Multilingual Plane', () => {
    const differing = PLANE.filter((code) => septetsOf(code) !== perlCost(code)).map(
      (code) => `${name(code)}: here ${septetsOf(code)}, in Perl ${perlCost(code)}`,
    );
    expect(differing).toEqual([]);
    expect(table?.septets.size).toBe(137);
  });

  test.each(DISPUTED)('agrees on %i, cost %i: %s', (code, septets) => {
    expect([septetsOf(code), perlCost(code)]).toEqual([septets, septets]);
  });

  test('has the characters in the order of ours: the septet is the place', () => {
    const basic = [...GSM_CHARACTERS.basic].map((char) => table?.septets.get(char.charCodeAt(0)));
    const places = Array.from({ length: 128 }, (_, septet) => septet).filter((septet) => septet !== 0x1b);
    expect(basic).toEqual(places.map((septet) => [septet]));
    const extension = [...GSM_CHARACTERS.extension].map((char) => table?.septets.get(char.charCodeAt(0)));
    expect(extension.map((septets) => septets?.[0])).toEqual(extension.map(() => 0x1b));
  });

  test.each([
    ['alone', (char: string) => char],
    ['at the end of a full part', (char: string) => 'a'.repeat(159) + char],
    ['at a cut', (char: string) => 'a'.repeat(152) + char + 'a'.repeat(152)],
  ])('gives the same size and cuts for every character %s', (_, around) => {
    const wrong: string[] = [];
    for (const code of PLANE) {
      const text = around(String.fromCharCode(code));
      const ours = { ...measure(text), lengths: splitParts(text).map((part) => unitsOf(part, text)) };
      const wanted = byPerl(text);
      if (JSON.stringify(ours) !== JSON.stringify(wanted))
        wrong.push(`${name(code)}: ${JSON.stringify(ours)} for ${JSON.stringify(wanted)}`);
    }
    expect(wrong).toEqual([]);
  });
});

function unitsOf(part: string, whole: string): number | null {
  return gsmSeptets(whole) === null ? part.length : gsmSeptets(part);
}

/** Size and length of the parts of a text without surrogate pairs, reckoned from Perl's table and the room of a part alone. */
function byPerl(text: string): Size & { readonly lengths: readonly number[] } {
  const costs = Array.from({ length: text.length }, (_, i) => perlCost(text.charCodeAt(i)));
  if (costs.includes(0)) return filled('UCS-2', Array<number>(text.length).fill(1), 70, 67);
  return filled('GSM-7', costs, 160, 153);
}

function filled(encoding: Size['encoding'], costs: readonly number[], alone: number, joined: number) {
  const units = costs.reduce((sum, cost) => sum + cost, 0);
  if (units <= alone) return { encoding, units, parts: 1, lengths: [units] };
  const lengths = [0];
  for (const cost of costs) {
    const last = lengths.at(-1) ?? 0;
    if (last + cost > joined) lengths.push(cost);
    else lengths[lengths.length - 1] = last + cost;
  }
  return { encoding, units, parts: lengths.length, lengths };
}
