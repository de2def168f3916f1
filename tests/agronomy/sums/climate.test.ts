/** Sun, evaporation and rain against the examples of FAO-56 and the rule of FAO Training Manual 3. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figure } from '../../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { effectiveRainMm, hargreavesMm, monthEto } from '../../../src/agronomy/sums/climate.ts';
import { type MonthNeedTerms, monthNeed } from '../../../src/agronomy/sums/month-need.ts';
import {
  daylightHours,
  daysInMonth,
  middleOfMonth,
  radiationAboveAirMj,
} from '../../../src/agronomy/sums/sunshine.ts';
import { made, refusedAs } from '../../support/sums.ts';

const MONTHS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
const latitudes = fc.double({ min: -60, max: 60, noNaN: true });
const days = fc.integer({ min: 1, max: 365 });
const year = (value: number) => Array<number>(12).fill(value);

describe('the sun', () => {
  // FAO-56, examples 8 and 9: 20 S on 3 September, day 246: Ra 32.2 MJ, N 11.7 h.
  it('at 20 S on 3 September', () => {
    expect(radiationAboveAirMj(-20, 246)).toBeCloseTo(32.2, 1);
    expect(daylightHours(-20, 246)).toBeCloseTo(11.7, 1);
  });

  // FAO-56, Annex 2, Table 2.6, the column of the equator (from memory), to the 0.1 or 0.2 to which it is printed.
  it('on the equator, in the middle of every month', () => {
    const table = [36.2, 37.5, 37.9, 36.8, 34.8, 33.4, 33.9, 35.7, 37.2, 37.4, 36.3, 35.6];
    for (const [index, mj] of table.entries())
      expect(Math.abs(radiationAboveAirMj(0, middleOfMonth(index + 1)) - mj)).toBeLessThan(0.15);
  });

  // Geometry: it is day on one side of the globe while it is night on the other.
  it('leaves 24 hours to a latitude and its opposite, and 12 to the equator', () => {
    fc.assert(
      fc.property(latitudes, days, (latitude, day) => {
        expect(daylightHours(latitude, day) + daylightHours(-latitude, day)).toBeCloseTo(24, 9);
        expect(daylightHours(0, day)).toBeCloseTo(12, 9);
      }),
    );
  });

  it('is up all day or not at all beyond the polar circles, and never gives less than nothing', () => {
    expect([daylightHours(80, 172), daylightHours(80, 355)]).toEqual([24, 0]);
    expect(radiationAboveAirMj(80, 355)).toBeCloseTo(0, 9);
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), days, (latitude, day) => {
        expect(radiationAboveAirMj(latitude, day)).toBeGreaterThanOrEqual(0);
        expect(radiationAboveAirMj(latitude, day)).toBeLessThan(50);
      }),
    );
  });

  it('has months of a common year', () => {
    expect(MONTHS.map(daysInMonth)).toEqual([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]);
    expect(MONTHS.map(middleOfMonth)).toEqual([15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349]);
    expect(() => daysInMonth(13)).toThrow(RangeError);
  });
});

describe('evaporation by Hargreaves', () => {
  // FAO-56, example 20: 45.72 N, July, 26.6 and 14.8 C: 5.0 mm a day.
  it('at 45.72 N in July', () => {
    const climate = { latitude: 45.72, minTemperatureC: year(14.8), maxTemperatureC: year(26.6) };
    expect(monthEto(book, climate, 7)).toMatchObject({ value: expect.closeTo(5.0, 1), by: 'hargreaves' });
  });

  it('is none where a day is never warmer than its night, or so cold that the rule ends', () => {
    expect(hargreavesMm(book, 20, 20, 40)).toBe(0);
    expect(hargreavesMm(book, 30, 20, 40)).toBe(0);
    expect(hargreavesMm(book, -30, -20, 40)).toBe(0);
  });

  it('uses the month of the file', () => {
    const climate = {
      latitude: 10,
      minTemperatureC: MONTHS.map((month) => 10 + month),
      maxTemperatureC: MONTHS.map((month) => 20 + month),
    };
    const byHand = (month: number) =>
      hargreavesMm(book, 10 + month, 20 + month, radiationAboveAirMj(10, middleOfMonth(month)));
    for (const month of MONTHS) expect(monthEto(book, climate, month).value).toBe(byHand(month));
  });
});

describe('evaporation of a month', () => {
  const all = {
    etoMmPerDay: MONTHS.map((month) => month / 2),
    latitude: 10,
    minTemperatureC: year(20),
    maxTemperatureC: year(30),
  };

  it('is what the place gives, before what its sun tells', () => {
    expect(monthEto(book, all, 9)).toEqual({ value: 4.5, figures: [], by: 'given' });
  });

  it.each([
    undefined,
    {},
    { latitude: 10 },
    { minTemperatureC: year(20), maxTemperatureC: year(30) },
    { latitude: 10, maxTemperatureC: year(30) },
  ])('is what is usual where too little is known: %o', (climate) => {
    const { value, by, figures } = monthEto(book, climate, 3);
    expect(by).toBe('usual');
    expect(figures).toContain('evaporation.usual');
    // Of open water, which evaporates 1.1 times as much (van de Goor & Zijlstra 1968).
    expect(value * 1.1).toBeCloseTo(figure(book, 'evaporation.usual'), 12);
  });
});

describe('rain that a crop can use', () => {
  // FAO Training Manual 3: 0.8 P - 25 above 75 mm, 0.6 P - 10 up to it, never below 0; both give 35 at 75.
  it.each([
    [0, 0],
    [10, 0],
    [50 / 3, 0],
    [50, 20],
    [75, 35],
    [100, 55],
    [300, 215],
  ])('of %d mm a month is %d', (rainMm, used) => {
    expect(effectiveRainMm(book, rainMm)).toBeCloseTo(used, 10);
  });

  it('goes over from one branch to the other without a jump', () => {
    expect(effectiveRainMm(book, 75 + 1e-9) - effectiveRainMm(book, 75)).toBeLessThan(1e-8);
  });
});

describe('the need of a month', () => {
  const TERMS: MonthNeedTerms = {
    month: 7,
    areaHa: 0.4,
    climate: { rainMm: year(120), etoMmPerDay: year(5), source: 'made up for this test' },
  };
  const need = (change: Partial<MonthNeedTerms> = {}) => made(monthNeed({ ...TERMS, ...change }, book));

  // By hand: July, 1.2 x 5 x 31 = 186 mm, 4 x 31 = 124 mm, of 120 mm of rain 71: 239 mm, on 0.4 ha 956 m3.
  it('is crop and percolation less the rain that they can use', () => {
    expect(need()).toMatchObject({
      days: 31,
      cropMm: expect.closeTo(186, 9),
      percolationMm: 124,
      effectiveRainMm: expect.closeTo(71, 9),
      needMm: expect.closeTo(239, 9),
      needM3: expect.closeTo(956, 9),
      etoBy: 'given',
    });
    expect(need().sources).toContainEqual(expect.stringContaining('made up for this test'));
    expect(need().assumptions.map(({ name }) => name)).toContain('percolation');
  });

  it('follows the stage of the crop, the percolation and the month that are given', () => {
    const rainMm = MONTHS.map((month) => 100 * month);
    expect(need({ stage: 'ripening' }).cropMm).toBeLessThan(need({ stage: 'young' }).cropMm);
    expect(need({ stage: 'young' }).cropMm).toBeLessThan(need().cropMm);
    expect(need({ percolationMmPerDay: 0 })).toMatchObject({ percolationMm: 0 });
    expect(need({ month: 2, climate: { rainMm } })).toMatchObject({ rainMm: 200, days: 28 });
  });

  it('names the usual evaporation where it took it', () => {
    const names = need({ climate: { rainMm: year(0) } }).assumptions.map(({ name }) => name);
    expect(names).toContain('evaporation.usual');
  });

  const rains = fc.double({ min: 0, max: 1500, noNaN: true });
  it('never grows with more rain, and is never under nothing', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), rains, rains, (month, one, other) => {
        const of = (rainMm: number) =>
          need({ month, climate: { rainMm: year(rainMm), etoMmPerDay: year(4) } }).needMm;
        expect(of(Math.max(one, other))).toBeLessThanOrEqual(of(Math.min(one, other)));
        expect(of(one)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('in m3 goes with the area', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 20, noNaN: true }), (areaHa) => {
        expect(need({ areaHa }).needM3 / areaHa).toBeCloseTo(need({ areaHa: 1 }).needM3, 6);
      }),
    );
  });

  const sun = { rainMm: year(10), latitude: 10, minTemperatureC: year(20), maxTemperatureC: year(30) };
  it.each<[Partial<MonthNeedTerms>, string]>([
    [{ month: 0 }, 'month-range: 0'],
    [{ month: 13 }, 'month-range: 13'],
    [{ month: 1.5 }, 'month-range: 1.5'],
    [{ areaHa: -1 }, 'area-zero: -1'],
    [{ percolationMmPerDay: 60 }, 'percolation-range: 60'],
    [{ climate: {} }, 'rain-missing: rain'],
    [{ climate: { rainMm: year(-1) } }, 'rain-range: -1'],
    [{ climate: { rainMm: year(4000) } }, 'rain-range: 4000'],
    [{ climate: { rainMm: year(Number.NaN) } }, 'not-a-number: NaN'],
    [{ climate: { rainMm: year(10), etoMmPerDay: year(30) } }, 'evaporation-range: 30'],
    [{ climate: { ...sun, latitude: 70 } }, 'latitude-range: 70'],
    [{ climate: { ...sun, minTemperatureC: year(35) } }, 'temperatures-turned: 35 and 30'],
    [{ climate: { ...sun, maxTemperatureC: year(80) } }, 'temperature-range: 80'],
  ])('is refused for %o as %s', (change, refused) => {
    expect(refusedAs(monthNeed({ ...TERMS, ...change }, book))).toBe(refused);
  });
});
