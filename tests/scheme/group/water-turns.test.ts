/** Water turns: by hand, against the law of soaking, against small steps of time, and in balance. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fillDays } from '../../../src/agronomy/sums/soaking.ts';
import type { Moment } from '../../../src/scheme/group/appointment.ts';
import { type CanalTurns, waterTurns } from '../../../src/scheme/group/water-turns.ts';

const plotsOf = (areas: readonly number[]) => areas.map((areaHa, i) => ({ plotId: `p${i}`, areaHa }));
const daysTo = ({ day, hour }: Moment, from: number) => day - from + hour / 24;
const MINUTE = 1 / 1440;

describe('by hand', () => {
  // t = A d / Q: 0.3 ha x 60 mm = 180 m3, at 5 l/s = 18 m3 an hour 10 hours.
  test('one plot without loss', () => {
    const found = waterTurns(plotsOf([0.3]), { flowLps: 5, depthMm: 60, lossMmPerDay: 0, from: 100 });
    expect(found.turns).toEqual([
      { plotId: 'p0', start: { day: 100, hour: 0 }, end: { day: 100, hour: 10 } },
    ]);
    expect(found).toMatchObject({ without: [], shortLps: 0 });
    expect(found.inM3).toBeCloseTo(180, 6);
    expect(found.soakedM3).toBeCloseTo(180, 6);
  });

  // The same from 6 in the morning to noon: 6 hours on the first day, 4 on the next; Thursday between is closed.
  test('goes on after the night and the day of rest', () => {
    const canal = { flowLps: 5, depthMm: 60, lossMmPerDay: 0, from: 100, open: { fromHour: 6, toHour: 12 } };
    const found = waterTurns(plotsOf([0.3]), { ...canal, isClosed: (day) => day === 101 });
    expect(found.turns).toEqual([
      { plotId: 'p0', start: { day: 100, hour: 6 }, end: { day: 102, hour: 10 } },
    ]);
  });

  // 1 l/s is 86.4 m3 a day, 8.64 mm over 1 ha: with a loss of 9 mm it never holds more than 0.96 ha. 2 ha lack 1.083 l/s.
  test('a canal that is too small says by how much, and which plots it leaves', () => {
    const found = waterTurns(plotsOf([0.5, 1.5]), { flowLps: 1, depthMm: 250, lossMmPerDay: 9, from: 0 });
    expect(found.turns.map(({ plotId }) => plotId)).toEqual(['p0']);
    expect(found.without).toEqual(['p1']);
    expect(found.shortLps).toBeCloseTo((2 * 9) / 8.64 - 1, 9);
  });

  test.each([
    { flowLps: 0 },
    { depthMm: 0 },
    { lossMmPerDay: -1 },
    { open: { fromHour: 12, toHour: 12 } },
    { open: { fromHour: 0, toHour: 25 } },
  ])('%j is refused', (wrong) => {
    const canal = { flowLps: 5, depthMm: 60, lossMmPerDay: 0, from: 0, ...wrong };
    expect(() => waterTurns(plotsOf([1]), canal)).toThrow(RangeError);
  });
});

const areas = fc.array(
  fc.integer({ min: 5, max: 150 }).map((ares) => ares / 100),
  { minLength: 1, maxLength: 8 },
);
const canals: fc.Arbitrary<CanalTurns> = fc.record({
  flowLps: fc.integer({ min: 3, max: 40 }),
  depthMm: fc.constantFrom(60, 150, 250, 300),
  lossMmPerDay: fc.integer({ min: 0, max: 12 }),
  from: fc.constant(0),
});
const closures = fc.record({
  open: fc.constantFrom(
    { fromHour: 0, toHour: 24 },
    { fromHour: 6, toHour: 18 },
    { fromHour: 5, toHour: 20 },
  ),
  restDay: fc.integer({ min: 0, max: 7 }),
});

test('without closures is the law of soaking', () => {
  fc.assert(
    fc.property(areas, canals, (hectares, canal) => {
      const { turns, without } = waterTurns(plotsOf(hectares), canal);
      const law = fillDays(canal, hectares);
      expect(without.length).toBe(law.filter((one) => 'shortLps' in one).length);
      for (const [i, { end }] of turns.entries()) {
        const filled = law[i]!;
        expect(daysTo(end, 0)).toBeCloseTo('days' in filled ? filled.days : Number.NaN, 2);
      }
    }),
  );
});

/** The same minute by minute: what comes in covers losses and lacks first, then soaks on. */
function byMinutes(
  hectares: readonly number[],
  canal: CanalTurns,
  isOpen: (at: number) => boolean,
): number[] {
  const { flowLps, depthMm, lossMmPerDay } = canal;
  const ends: number[] = [];
  let [soaked, lacking, wanted] = [0, 0, hectares[0]!];
  for (let minute = 0; ends.length < hectares.length && minute < 120 * 1440; minute++) {
    const lost = lossMmPerDay * soaked * MINUTE;
    const given = isOpen(minute * MINUTE) ? flowLps * 8.64 * MINUTE : 0;
    const used = Math.min(given, lacking + lost);
    lacking += lost - used;
    soaked += (given - used) / depthMm;
    while (ends.length < hectares.length && soaked >= wanted - 1e-9) {
      ends.push((minute + 1) * MINUTE);
      wanted += hectares[ends.length] ?? 0;
    }
  }
  return ends;
}

test('with nights and days of rest is what small steps of time come to, and no water is lost to the sum', () => {
  fc.assert(
    fc.property(areas, canals, closures, (hectares, canal, { open, restDay }) => {
      const isClosed = (day: number) => day % 7 === restDay;
      const found = waterTurns(plotsOf(hectares), { ...canal, open, isClosed });
      const isOpen = (at: number) => {
        const hour = (at - Math.floor(at)) * 24;
        return !isClosed(Math.floor(at)) && hour >= open.fromHour - 1e-9 && hour < open.toHour - 1e-9;
      };
      const steps = byMinutes(hectares, canal, isOpen);
      for (const [i, { start, end }] of found.turns.entries()) {
        expect(daysTo(end, 0)).toBeGreaterThanOrEqual(daysTo(start, 0));
        if (steps[i] !== undefined)
          expect(Math.abs(daysTo(end, 0) - steps[i])).toBeLessThan(0.02 + steps[i] / 500);
      }
      const balance = found.soakedM3 + found.lostM3;
      expect(Math.abs(found.inM3 - balance)).toBeLessThanOrEqual(found.inM3 / 1000 + 1e-6);
    }),
    { numRuns: 60 },
  );
});

test('a plot more takes no turn from those before it', () => {
  fc.assert(
    fc.property(areas, canals, (hectares, canal) => {
      const [fewer, more] = [hectares.slice(0, -1), hectares].map((some) => waterTurns(plotsOf(some), canal));
      expect(more!.turns.slice(0, fewer!.turns.length)).toEqual(fewer!.turns);
    }),
  );
});
