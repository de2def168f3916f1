/** Water for a plot: sums by hand, what is refused, and what holds for any plot. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figure } from '../../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { type PlotWaterTerms, plotWater } from '../../../src/agronomy/sums/plot-water.ts';
import { made, refusedAs } from '../../support/sums.ts';

const CANAL = { litresPerSecond: 5, efficiency: 0.8 };
const TERMS: PlotWaterTerms = { areaHa: 0.4, etoMmPerDay: 5, percolationMmPerDay: 4, canal: CANAL };
const water = (change: Partial<PlotWaterTerms> = {}) => made(plotWater({ ...TERMS, ...change }, book));
const canalOf = (change: Partial<PlotWaterTerms> = {}) => {
  const { canal } = water(change);
  if (canal === null) throw new Error('no canal');
  return canal;
};
const namesOf = (change: Partial<PlotWaterTerms>) => water(change).assumptions.map(({ name }) => name);

describe('a plot', () => {
  // By hand: 1.1 x 5 + 4 = 9.5 mm a day (van de Goor & Zijlstra: Eo = 1.1 ETo), on 0.4 ha 38 m3; 250 mm are 1000 m3.
  it('loses 9.5 mm a day and is soaked with 1000 m3', () => {
    expect(water()).toMatchObject({
      soakDepthMm: 250,
      evaporationMmPerDay: 5.5,
      lossMmPerDay: 9.5,
      lossM3PerDay: expect.closeTo(38, 10),
      soakedM3: 1000,
    });
  });

  // By hand: 4 l/s arrive, 345.6 m3 a day = 86.4 mm on 0.4 ha. 250/9.5 x ln(86.4 / 76.9) = 3.0655 days = 73.57 h of 18 m3.
  it('is soaked in 73.6 hours of the canal, and held with 47.5 m3 or 2.64 hours of it a day', () => {
    const days = (250 / 9.5) * Math.log(86.4 / 76.9);
    expect(canalOf()).toMatchObject({
      soakHours: expect.closeTo(days * 24, 8),
      soakM3: expect.closeTo(days * 24 * 18, 6),
      shortLps: null,
      holdM3PerDay: expect.closeTo(38 / 0.8, 10),
      holdHoursPerWeek: expect.closeTo((7 * 38) / 0.8 / 18, 10),
      holdsHa: expect.closeTo(345.6 / 95, 10),
    });
    expect(canalOf().soakHours).toBeCloseTo(73.57, 1);
  });

  // KP-01: 300 mm after two and a half months or more of fallow.
  it.each([
    [0, 250],
    [74, 250],
    [75, 300],
    [200, 300],
  ])('after %i days of fallow takes %i mm', (fallowDays, depth) => {
    expect(water({ fallowDays }).soakDepthMm).toBe(depth);
  });

  // JARQ 16(2):151, Muda 1979: of 973.8 mm, 353.7 evaporated and 412.0 ran or seeped away; the rest soaked in.
  it('is soaked with about what a whole scheme took', () => {
    const soakedIn = 973.8 - (353.7 + 412.0);
    expect(Math.abs(soakedIn / figure(book, 'soaking.depth') - 1)).toBeLessThan(0.2);
  });

  it('without a canal still has its sums', () => {
    expect(water({ canal: null })).toMatchObject({ soakedM3: 1000, canal: null });
  });
});

describe('what was not given', () => {
  it('is told, and evaporation that is usual is of open water already', () => {
    const { etoMmPerDay: _, percolationMmPerDay: __, ...bare } = TERMS;
    const found = made(plotWater({ ...bare, canal: { litresPerSecond: 5 } }, book));
    expect(found.evaporationMmPerDay).toBe(figure(book, 'evaporation.usual'));
    expect(found.canal?.efficiency).toBe(figure(book, 'canal.efficiency'));
    expect(found.assumptions.map(({ name }) => name)).toEqual([
      'soaking.depth',
      'soaking.long-fallow',
      'evaporation.usual',
      'percolation',
      'canal.efficiency',
    ]);
  });

  it('is not told where it was given', () => {
    expect(namesOf({})).toEqual(['soaking.depth', 'soaking.long-fallow', 'evaporation.open-water']);
  });
});

describe('for any plot', () => {
  const terms = fc.record({
    areaHa: fc.double({ min: 0.05, max: 5, noNaN: true }),
    etoMmPerDay: fc.double({ min: 0, max: 10, noNaN: true }),
    percolationMmPerDay: fc.double({ min: 0, max: 10, noNaN: true }),
    canal: fc.record({
      litresPerSecond: fc.double({ min: 0.5, max: 50, noNaN: true }),
      efficiency: fc.double({ min: 0.2, max: 1, noNaN: true }),
    }),
    fallowDays: fc.integer({ min: 0, max: 200 }),
  });

  it('twice the area needs twice of all that does not hang on the flow', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const [single, double] = [water(one), water({ ...one, areaHa: 2 * one.areaHa })];
        expect(double.soakedM3).toBeCloseTo(2 * single.soakedM3, 6);
        expect(double.lossM3PerDay).toBeCloseTo(2 * single.lossM3PerDay, 6);
        expect(double.canal?.holdHoursPerWeek).toBeCloseTo(2 * (single.canal?.holdHoursPerWeek ?? 0), 6);
      }),
    );
  });

  it('twice the area under twice the flow is soaked in the same hours', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const { litresPerSecond, efficiency } = one.canal;
        const twice = {
          ...one,
          areaHa: 2 * one.areaHa,
          canal: { litresPerSecond: 2 * litresPerSecond, efficiency },
        };
        const [single, double] = [canalOf(one), canalOf(twice)];
        if (single.soakHours === null) expect(double.soakHours).toBeNull();
        else expect((double.soakHours ?? 0) / single.soakHours).toBeCloseTo(1, 6);
      }),
    );
  });

  it('what comes in soaks in or is lost: never more than the plot would lose if it were all wet', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const found = water(one);
        const { soakM3, soakHours, efficiency } = canalOf(one);
        if (soakM3 === null || soakHours === null) return;
        const lost = soakM3 * efficiency - found.soakedM3;
        expect(lost).toBeGreaterThanOrEqual(-1e-6 * found.soakedM3);
        expect(lost).toBeLessThanOrEqual(found.lossM3PerDay * (soakHours / 24) * (1 + 1e-9) + 1e-6);
      }),
    );
  });

  it('the flow is short of soaking just where a week has not hours enough to hold', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const { shortLps, soakHours, holdHoursPerWeek, holdsHa } = canalOf(one);
        if (Math.abs(holdHoursPerWeek - 168) < 1e-6) return;
        expect(shortLps !== null).toBe(holdHoursPerWeek > 168);
        expect(soakHours === null).toBe(shortLps !== null);
        if (holdsHa !== null) expect(holdsHa < one.areaHa).toBe(shortLps !== null);
        if (shortLps === null) return;
        const mended = { ...one.canal, litresPerSecond: (one.canal.litresPerSecond + shortLps) * 1.001 };
        expect(canalOf({ ...one, canal: mended }).shortLps).toBeNull();
      }),
    );
  });
});

describe('refused', () => {
  it.each<[Partial<PlotWaterTerms>, string]>([
    [{ areaHa: 0 }, 'area-zero: 0'],
    [{ areaHa: Number.NaN }, 'not-a-number: NaN'],
    [{ areaHa: 1000 }, 'area-over: 1000'],
    [{ etoMmPerDay: -1 }, 'evaporation-range: -1'],
    [{ etoMmPerDay: 21 }, 'evaporation-range: 21'],
    [{ percolationMmPerDay: -0.1 }, 'percolation-range: -0.1'],
    [{ percolationMmPerDay: 51 }, 'percolation-range: 51'],
    [{ percolationMmPerDay: Number.POSITIVE_INFINITY }, 'not-a-number: Infinity'],
    [{ fallowDays: -1 }, 'fallow-negative: -1'],
    [{ canal: { litresPerSecond: 0 } }, 'flow-zero: 0'],
    [{ canal: { litresPerSecond: -3 } }, 'flow-zero: -3'],
    [{ canal: { litresPerSecond: 20_000 } }, 'flow-over: 20000'],
    [{ canal: { litresPerSecond: 5, efficiency: 0 } }, 'efficiency-range: 0'],
    [{ canal: { litresPerSecond: 5, efficiency: 1.1 } }, 'efficiency-range: 1.1'],
  ])('%o as %s', (change, refused) => {
    expect(refusedAs(plotWater({ ...TERMS, ...change }, book))).toBe(refused);
  });
});
