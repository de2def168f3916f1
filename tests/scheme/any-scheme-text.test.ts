import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { readSchemeFile } from '../../src/scheme/scheme-file.ts';
import type { SchemeFile } from '../../src/scheme/scheme-shape.ts';
import { day } from '../support/seasons.ts';

const WHOLE = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');
/** The demo as far as its first few plots: every kind of field, and quick to read. */
const DEMO = WHOLE.slice(0, WHOLE.search(/ {2}- \{\n {6}id: u3,/));
const LOADED = day('2027-03-01');

const scrap = fc.oneof(
  fc.constantFrom(
    '',
    '\n',
    '  ',
    '\t',
    ': ',
    '- ',
    '{',
    '}',
    '[',
    ']',
    '"',
    "'",
    '&a ',
    '*a',
    '!!x ',
    '|',
    '#',
    'null',
  ),
  fc.constantFrom(
    '+25',
    '"+9999"',
    '-1',
    '1e99',
    '.nan',
    'upper',
    '2027-02-30',
    '<<: *a',
    '%YAML 9',
    '---\n',
    '...\n',
  ),
  fc.string({ maxLength: 12 }),
  fc.string({ unit: 'binary', maxLength: 4 }),
);

/** A piece of the text replaced by something else; place and length as shares of the text. */
interface Change {
  readonly at: number;
  readonly cut: number;
  readonly put: string;
}

const change: fc.Arbitrary<Change> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.nat({ max: 60 }),
  put: scrap,
});

function mutated(text: string, changes: readonly Change[]): string {
  return changes.reduce((now, { at, cut, put }) => {
    const from = Math.floor(at * now.length);
    return now.slice(0, from) + put + now.slice(from + cut);
  }, text);
}

test('the file is read before it is damaged', () => {
  expect(readSchemeFile(DEMO, LOADED)).toMatchObject({
    ok: true,
    scheme: { plots: [{ id: 'u1' }, { id: 'u2' }] },
  });
});

test('however the file is damaged, it gives a sound scheme or a list of placed mistakes, and never throws', () => {
  let refused = 0;
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
      const reading = readSchemeFile(mutated(DEMO, changes), LOADED);
      if (reading.ok) return sound(reading.scheme);
      refused += 1;
      expect(reading.mistakes.length).toBeGreaterThan(0);
      for (const { place, what } of reading.mistakes) {
        expect(place).toMatch(/^line \d+/);
        expect(what.trim()).not.toBe('');
      }
    }),
    { numRuns: 150 },
  );
  expect(refused).toBeGreaterThan(50);
});

/** No plot is without its owner and block. */
function sound({ people, blocks, plots }: SchemeFile): void {
  for (const { owner, block } of plots) {
    expect(people.filter(({ id, role }) => id === owner && role === 'grower')).toHaveLength(1);
    expect(blocks.filter(({ id }) => id === block)).toHaveLength(1);
  }
}
