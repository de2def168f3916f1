/** Rain of days in a row: by hand, and that no water appears or goes missing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { type RainRowTerms, rainRow } from '../../../src/agronomy/sums/rain-row.ts';
import { made, refusedAs } from '../../support/sums.ts';

const row = (terms: RainRowTerms) => made(rainRow(terms, book));

// By hand: of 57 mm a crop can use 0.6 x 57 - 10 = 24.2 (FAO Training Manual 3); at 5 + 4 mm a day 11, 34 and 30 mm stand.
it('gives the running sum, what is of use and what stands', () => {
  expect(row({ rainsMm: [20, 32, 5] })).toMatchObject({
    sumMm: 57,
    runningMm: [20, 52, 57],
    effectiveMm: expect.closeTo(24.2, 10),
    standingMm: [11, 34, 30],
    lostMm: 27,
    overflowMm: 0,
    puddleOnDay: null,
  });
});

// Morris & Zandstra 1979, quoted by MMSU Agromet: 200 mm before puddling.
it('says on which day puddling has its rain', () => {
  expect(row({ rainsMm: [90, 109, 0, 1, 50] }).puddleOnDay).toBe(4);
});

it('runs over the bunds, of 300 mm (UNEP-IETC 1998)', () => {
  const full = row({ rainsMm: [50], startMm: 290, etoMmPerDay: 0, percolationMmPerDay: 0 });
  expect(full).toMatchObject({ standingMm: [300], overflowMm: 40, lostMm: 0 });
});

describe('for any row', () => {
  const terms = fc.record({
    rainsMm: fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 40 }),
    startMm: fc.integer({ min: 0, max: 300 }),
    etoMmPerDay: fc.integer({ min: 0, max: 12 }),
    percolationMmPerDay: fc.integer({ min: 0, max: 12 }),
  });

  it('what stood and fell is what stands, was lost and ran over', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const { sumMm, standingMm, lostMm, overflowMm } = row(one);
        expect((standingMm.at(-1) ?? 0) + lostMm + overflowMm).toBeCloseTo(one.startMm + sumMm, 8);
      }),
    );
  });

  it('more rain on a day leaves no day with less', () => {
    fc.assert(
      fc.property(terms, fc.nat(), (one, seed) => {
        const at = seed % one.rainsMm.length;
        const more = one.rainsMm.map((mm, index) => (index === at ? Math.min(400, mm + 7) : mm));
        const [before, after] = [row(one), row({ ...one, rainsMm: more })];
        expect(after.effectiveMm).toBeGreaterThanOrEqual(before.effectiveMm);
        for (const [index, mm] of before.standingMm.entries())
          expect(after.standingMm[index] ?? 0).toBeGreaterThanOrEqual(mm - 1e-9);
      }),
    );
  });
});

it.each<[RainRowTerms, string]>([
  [{ rainsMm: [] }, 'numbers-missing: none given'],
  [{ rainsMm: [3, -1] }, 'rain-range: -1'],
  [{ rainsMm: [3, 401] }, 'rain-range: 401'],
  [{ rainsMm: [Number.NaN] }, 'not-a-number: NaN'],
  [{ rainsMm: [3], startMm: -1 }, 'standing-range: -1'],
  [{ rainsMm: [3], startMm: 301 }, 'standing-range: 301'],
  [{ rainsMm: [3], etoMmPerDay: 25 }, 'evaporation-range: 25'],
])('%o is refused as %s', (terms, refused) => {
  expect(refusedAs(rainRow(terms, book))).toBe(refused);
});
