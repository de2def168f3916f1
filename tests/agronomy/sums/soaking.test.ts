/** Soaking of land against published values, and against its own law followed in small steps. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Filling, fillDay, fillDays, soakingMmPerDay } from '../../../src/agronomy/sums/soaking.ts';
import { servedHa, turnHours } from '../../../src/agronomy/sums/water-turn.ts';

/** 1 l/s for a day is 86.4 m3, and 1 mm on 1 ha is 10 m3. */
const MM_HA = 86.4 / 10;

const daysOf = (filling: Filling, areaHa: number): number => {
  const filled = fillDay(filling, areaHa);
  if (!('days' in filled)) throw new Error(`short by ${filled.shortLps} l/s`);
  return filled.days;
};

describe('the flow that soaks land in time', () => {
  // Indonesian irrigation planning criteria KP-01, Table A.2.1 (from memory), M from 5 to 11 mm a day.
  it.each([
    [30, 250, [11.1, 11.7, 12.3, 13.0, 13.6, 14.3, 15.0]],
    [45, 300, [9.5, 10.1, 10.8, 11.4, 12.1, 12.9, 13.6]],
  ])('in %i days with %i mm is that of the table', (days, depthMm, table) => {
    for (const [index, mmPerDay] of table.entries()) {
      const found = soakingMmPerDay({ evaporationMm: 2 + index, percolationMm: 3, days, depthMm });
      expect(Math.abs(found - mmPerDay)).toBeLessThan(0.06);
    }
  });

  it('counts evaporation and percolation alike', () => {
    const split = (evaporationMm: number) =>
      soakingMmPerDay({ evaporationMm, percolationMm: 8 - evaporationMm, days: 30, depthMm: 250 });
    expect(split(6)).toBeCloseTo(split(1), 10);
  });

  // The limit of the formula; 1 + k / 2 is its series for small k (mathematics).
  it.each([0, 5e-324, 1e-300, 1e-17, 1e-12, 1e-8])(
    'with %d mm a day lost comes to depth over days',
    (lost) => {
      const found = soakingMmPerDay({ evaporationMm: lost, percolationMm: 0, days: 30, depthMm: 250 });
      expect(found / (250 / 30)).toBeCloseTo(1 + (lost * 30) / 250 / 2, 14);
    },
  );

  it('is more than is lost, more than depth over days, and more with every loss', () => {
    const terms = fc.record({
      lost: fc.double({ min: 0, max: 60, noNaN: true }),
      more: fc.double({ min: 0.01, max: 10, noNaN: true }),
      days: fc.integer({ min: 1, max: 90 }),
      depthMm: fc.integer({ min: 50, max: 500 }),
    });
    fc.assert(
      fc.property(terms, ({ lost, more, days, depthMm }) => {
        const flow = (evaporationMm: number) =>
          soakingMmPerDay({ evaporationMm, percolationMm: 0, days, depthMm });
        expect(flow(lost)).toBeGreaterThanOrEqual(Math.max(lost, depthMm / days) * (1 - 1e-12));
        expect(flow(lost + more)).toBeGreaterThan(flow(lost));
      }),
    );
  });

  // One law: a flow that soaks 1 ha in T days, brought to that hectare, has soaked it after T days.
  it('is the flow whose filling takes those days', () => {
    for (const lossMmPerDay of [0, 3, 9]) {
      const mmPerDay = soakingMmPerDay({
        evaporationMm: lossMmPerDay,
        percolationMm: 0,
        days: 25,
        depthMm: 250,
      });
      expect(daysOf({ flowLps: mmPerDay / MM_HA, depthMm: 250, lossMmPerDay }, 1)).toBeCloseTo(25, 8);
    }
  });

  it.each([
    { evaporationMm: -1, percolationMm: 0, days: 30, depthMm: 250 },
    { evaporationMm: 5, percolationMm: 0, days: 0, depthMm: 250 },
    { evaporationMm: 5, percolationMm: 0, days: 30, depthMm: 0 },
    { evaporationMm: Number.NaN, percolationMm: 0, days: 30, depthMm: 250 },
  ])('throws for %o', (terms) => {
    expect(() => soakingMmPerDay(terms)).toThrow(RangeError);
  });
});

const fillings = fc.record({
  flowLps: fc.double({ min: 0.5, max: 60, noNaN: true }),
  depthMm: fc.integer({ min: 50, max: 400 }),
  lossMmPerDay: fc.double({ min: 0, max: 20, noNaN: true }),
});
/** A part of the area that the flow can just hold. */
const parts = fc.double({ min: 0.01, max: 0.97, noNaN: true });
const heldHa = ({ flowLps, lossMmPerDay }: Filling) => (flowLps * MM_HA) / Math.max(lossMmPerDay, 0.5);

/** dA/dt = (Q - M A) / S, followed from nothing through `days` by Runge and Kutta's rule, and what was lost meanwhile. */
function follow({ flowLps, depthMm, lossMmPerDay }: Filling, days: number) {
  const steps = 4000;
  const dt = days / steps;
  const rate = (areaHa: number) => (flowLps * MM_HA - lossMmPerDay * areaHa) / depthMm;
  let [areaHa, lostMmHa] = [0, 0];
  for (let step = 0; step < steps; step++) {
    const first = rate(areaHa);
    const second = rate(areaHa + (dt / 2) * first);
    const third = rate(areaHa + (dt / 2) * second);
    const fourth = rate(areaHa + dt * third);
    const next = areaHa + (dt / 6) * (first + 2 * second + 2 * third + fourth);
    lostMmHa += (dt * lossMmPerDay * (areaHa + next)) / 2;
    areaHa = next;
  }
  return { areaHa, lostMmHa };
}

describe('plots that one flow fills in turn', () => {
  it('are full when small steps say so, and what came in is soaked in or lost', () => {
    fc.assert(
      fc.property(fillings, parts, (filling, part) => {
        const areaHa = part * heldHa(filling);
        const days = daysOf(filling, areaHa);
        const followed = follow(filling, days);
        expect(followed.areaHa / areaHa).toBeCloseTo(1, 5);
        const inMmHa = filling.flowLps * MM_HA * days;
        expect((filling.depthMm * areaHa + followed.lostMmHa) / inMmHa).toBeCloseTo(1, 5);
      }),
    );
  });

  it('take longer, one after the other, than by their areas alone', () => {
    fc.assert(
      fc.property(fillings, fc.array(parts, { minLength: 2, maxLength: 6 }), (filling, shares) => {
        const areas = shares.map((share) => (share * heldHa(filling)) / shares.length);
        const filled = fillDays(filling, areas).map((one) => ('days' in one ? one.days : Number.NaN));
        const alone = areas.map((areaHa) => (filling.depthMm * areaHa) / (filling.flowLps * MM_HA));
        for (const [index, days] of filled.entries()) {
          const before = index === 0 ? 0 : (filled[index - 1] ?? 0);
          expect(days - before).toBeGreaterThanOrEqual((alone[index] ?? 0) * (1 - 1e-9));
        }
      }),
    );
  });

  // By hand: 10 l/s bring 86.4 mm over a hectare in a day.
  it('without loss take depth x area over the flow', () => {
    expect(daysOf({ flowLps: 10, depthMm: 250, lossMmPerDay: 0 }, 1)).toBeCloseTo(250 / 86.4, 12);
    expect(daysOf({ flowLps: 10, depthMm: 250, lossMmPerDay: 1e-13 }, 1)).toBeCloseTo(250 / 86.4, 12);
  });

  // By hand: 9 mm a day on 2 ha are 180 m3 a day, 2.0833 l/s.
  it.each([
    [2, 1 / 12],
    [1, 13 / 12],
    [180 / 86.4, 0],
  ])('of 2 ha are never full with %d l/s, short by %d', (flowLps, shortLps) => {
    const filled = fillDay({ flowLps, depthMm: 250, lossMmPerDay: 9 }, 2);
    expect(filled).toEqual({ shortLps: expect.closeTo(shortLps, 12) });
  });

  it('are filled as long as the flow holds them, and no longer', () => {
    const filled = fillDays({ flowLps: 2, depthMm: 250, lossMmPerDay: 9 }, [1, 0.5, 0.5, 1]);
    expect(filled.map((one) => 'days' in one)).toEqual([true, true, false, false]);
  });

  it.each([
    [{ flowLps: 0, depthMm: 250, lossMmPerDay: 9 }, 1],
    [{ flowLps: 1, depthMm: 0, lossMmPerDay: 9 }, 1],
    [{ flowLps: 1, depthMm: 250, lossMmPerDay: -1 }, 1],
    [{ flowLps: 1, depthMm: 250, lossMmPerDay: 9 }, 0],
  ])('throw for %o and %d ha', (filling, areaHa) => {
    expect(() => fillDay(filling, areaHa)).toThrow(RangeError);
  });
});

describe('water turns', () => {
  // Chan, MARDI J. 26(2) 1998: 1.0 l/s on each metre of an 80 m field for 110 minutes, about 80 mm (82.5 by the sum).
  it('put 82.5 mm on a strip of 80 m2 in 110 minutes', () => {
    expect(turnHours(80 / 10_000, 82.5, { litresPerSecond: 1 }) * 60).toBeCloseTo(110, 10);
  });

  // By hand: 3000 m2 x 0.06 m = 180 m3; 5 l/s are 18 m3 an hour.
  it('take twice as long where half of the flow arrives', () => {
    expect(turnHours(0.3, 60, { litresPerSecond: 5 })).toBeCloseTo(10, 12);
    expect(turnHours(0.3, 60, { litresPerSecond: 5, efficiency: 0.5 })).toBeCloseTo(20, 12);
  });

  // Textbook exercises on the duty of water: hectares by a cubic metre a second.
  it.each([
    [15, 900 - 200, 185.14],
    [20, 800, 216],
  ])('in %i days of %i mm serve %d ha by 1000 l/s', (days, depthMm, ha) => {
    expect(servedHa({ litresPerSecond: 1000 }, days, depthMm)).toBeCloseTo(ha, 2);
  });
});
