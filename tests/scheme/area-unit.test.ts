/** A scheme's own unit of area: what its file may say of it, and how many of it an area is. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { areaUnitMistakes, haIn, unitsIn } from '../../src/scheme/area-unit.ts';
import { readSchemeFile } from '../../src/scheme/scheme-file.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { takenIn } from '../../src/sweeps/scheme-unit.ts';
import { day } from '../support/seasons.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const TAKEN = takenIn(readVoices());
/** The line on which a section begins that is put behind the valley's file. */
const FIRST_LINE = VALLEY.split('\n').length;

const read = (section: string) => readSchemeFile(`${VALLEY}${section}`, day('2027-03-01'), undefined, TAKEN);

/** Mistakes with their lines counted within the section. */
function mistakes(section: string): string[] {
  const reading = read(section);
  if (reading.ok) return [];
  return reading.mistakes.map(({ place, what }) => {
    const line = Number(/^line (\d+)/.exec(place)?.[1]) - FIRST_LINE + 1;
    return `${line}${place.replace(/^line \d+/, '')}: ${what}`;
  });
}

const words = (...list: readonly string[]) => `areaUnit: { words: [${list.join(', ')}], m2: 500 }\n`;

describe('the unit in a scheme’s file', () => {
  test('is read with its words and its size', () => {
    expect(read('areaUnit: { words: [tin, tins], m2: 500 }\n')).toMatchObject({
      ok: true,
      scheme: { areaUnit: { words: ['tin', 'tins'], m2: 500 } },
    });
  });

  test('is absent where the file has none', () => {
    const reading = read('');
    expect(reading.ok).toBe(true);
    expect(reading.ok && reading.scheme).not.toHaveProperty('areaUnit');
  });

  test.each([
    words('zomba'),
    words('কানি', 'zomba'),
    words('Félo'),
    'areaUnit: { words: [tin], m2: 1 }\n',
    'areaUnit: { words: [tin], m2: 100000 }\n',
    'areaUnit: { words: [tin], m2: 66.9 }\n',
  ])('%s is good', (section) => expect(mistakes(section)).toEqual([]));

  test.each([
    [words(), /^1, areaUnit, words: at least one word$/],
    [words('tin', '"two tins"'), /^1, areaUnit, words, 2: one word of letters only/],
    [words('tin2'), /^1, areaUnit, words, 1: one word of letters only/],
    [words('"-"'), /^1, areaUnit, words, 1: one word of letters only/],
    [words('""'), /^1, areaUnit, words, 1: one word of letters only/],
    [words('t'.repeat(21)), /^1, areaUnit, words, 1: one word of letters only, at most 20/],
    [words('7'), /^1, areaUnit, words, 1: .*string/],
    ['areaUnit: { words: tin, m2: 500 }\n', /^1, areaUnit, words: /],
    ['areaUnit: { words: [tin], m2: 0.5 }\n', /^1, areaUnit, m2: /],
    ['areaUnit: { words: [tin], m2: 100001 }\n', /^1, areaUnit, m2: /],
    ['areaUnit: { words: [tin], m2: big }\n', /^1, areaUnit, m2: .*number/],
    ['areaUnit: { words: [tin] }\n', /^1, areaUnit, m2: /],
    ['areaUnit: { words: [tin], m2: 500, ha: 0.05 }\n', /^1, areaUnit: .*ha/],
    ['areaUnit: tin\n', /^1, areaUnit: /],
  ])('%s is refused at its place', (section, mistake) => {
    const [first, ...others] = mistakes(section);
    expect(others).toEqual([]);
    expect(first).toMatch(mistake);
  });

  test.each([
    ['acre', 'already means something'],
    ['Acres', 'already means something'],
    ['hand', 'already means something'],
    ['plot', 'already means something'],
    ['half', 'already means something'],
    ['square', 'already means something'],
    ['plott', 'already means something'],
    ['polt', 'is read as "plot"'],
    ['plowd', 'is read as "plowed"'],
    ['wil', 'is read as "will"'],
  ])('"%s" %s in English', (word, why) => {
    const section = `areaUnit:\n  words:\n    - tin\n    - ${word}\n  m2: 500\n`;
    expect(mistakes(section)).toEqual([`4, areaUnit, words, 2: "${word}" ${why} in the language "en"`]);
  });

  test('a word twice is a mistake, whatever its case', () => {
    expect(mistakes(words('tin', 'tins', 'Tin'))).toEqual(['1, areaUnit, words, 3: "Tin" is there twice']);
  });

  test('every language of the scheme is asked, and no other', () => {
    const taken = (word: string, lang: string) => (word === 'zomba' && lang !== 'aa' ? 'is taken' : null);
    const unit = { words: ['felo', 'zomba'], m2: 500 };
    expect(areaUnitMistakes(unit, ['aa', 'bb', 'cc'], taken).map(({ what }) => what)).toEqual([
      '"zomba" is taken in the language "bb"',
      '"zomba" is taken in the language "cc"',
    ]);
    expect(areaUnitMistakes(unit, ['aa'], taken)).toEqual([]);
    expect(areaUnitMistakes(undefined, ['bb'], taken)).toEqual([]);
  });
});

describe('an area in the unit', () => {
  test.each([
    [0.1, 500, 2],
    [0.125, 500, 2.5],
    [0.0125, 500, 0.25],
    [0.4, 1337, 3],
    [0.0067, 66.9, 1],
    [0.0335, 66.9, 5],
    [0.405, 506, 8],
    [0.4, 100_000, 0.04],
    [0.0004, 100_000, 0],
    [0.0004, 1, 4],
  ])('%f ha of %f m2 are %f', (areaHa, m2, units) => {
    expect(unitsIn(areaHa, { words: ['tin'], m2 })).toBe(units);
  });

  test('what was told in whole or half units comes back as it was told', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 40, max: 100_000 }), (halves, m2) => {
        const unit = { words: ['tin'], m2 };
        const keptHa = Math.round((halves / 2) * haIn(unit) * 10_000) / 10_000;
        expect(unitsIn(keptHa, unit)).toBe(halves / 2);
      }),
    );
  });
});
