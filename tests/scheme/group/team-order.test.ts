/** The shared team's order: by hand, with days of rest and the way between plots, and what holds for any. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type TeamPlot, teamOrder } from '../../../src/scheme/group/team-order.ts';

const TEAM = { from: 100, hoursADay: 8, movingHours: 0 };
const plot = (plotId: string, releaseOn: number, lastOn: number, hours = 8): TeamPlot => ({
  plotId,
  releaseOn,
  lastOn,
  hours,
});
const inShort = (plots: readonly TeamPlot[], team: Parameters<typeof teamOrder>[1]) =>
  teamOrder(plots, team).visits.map(({ plotId, on, doneOn }) => `${plotId} ${on}-${doneOn}`);

describe('by hand', () => {
  test('who must be done first is, once the soil is soft', () => {
    expect(inShort([plot('a', 100, 110), plot('b', 101, 101), plot('c', 100, 105)], TEAM)).toEqual([
      'c 100-100',
      'b 101-101',
      'a 102-102',
    ]);
  });

  test('two small plots fill one day, and the way between them may make it two', () => {
    const halves = [plot('a', 100, 104, 4), plot('b', 100, 105, 4)];
    expect(inShort(halves, TEAM)).toEqual(['a 100-100', 'b 100-100']);
    expect(inShort(halves, { ...TEAM, movingHours: 1 })).toEqual(['a 100-100', 'b 100-101']);
  });

  test('nobody works on a day of rest', () => {
    const team = { ...TEAM, isRest: (day: number) => day === 101 };
    expect(inShort([plot('a', 100, 104, 16), plot('b', 100, 105)], team)).toEqual(['a 100-102', 'b 103-103']);
  });

  test('what cannot be in time is late by as little as can be', () => {
    const { lateDays, isBest } = teamOrder(
      [plot('a', 100, 100), plot('b', 100, 100), plot('c', 100, 100)],
      TEAM,
    );
    expect({ lateDays, isBest }).toEqual({ lateDays: 2, isBest: true });
  });

  test.each([{ hoursADay: 0 }, { movingHours: -1 }, { isRest: () => true }])('%j is refused', (wrong) => {
    expect(() => teamOrder([plot('a', 100, 100)], { ...TEAM, ...wrong })).toThrow(RangeError);
  });
});

const plots = fc.array(
  fc
    .tuple(
      fc.integer({ min: 95, max: 130 }),
      fc.integer({ min: 0, max: 20 }),
      fc.integer({ min: 1, max: 24 }),
    )
    .map(([releaseOn, slack, hours]) => ({ releaseOn, lastOn: releaseOn + slack, hours })),
  { minLength: 1, maxLength: 40 },
);

test('no plot is served before its day, before the team’s, or on a day of rest, and each once', () => {
  fc.assert(
    fc.property(
      plots,
      fc.integer({ min: 0, max: 3 }),
      fc.integer({ min: 0, max: 6 }),
      (all, movingHours, rest) => {
        const named = all.map((one, i) => ({ ...one, plotId: `p${i}` }));
        const isRest = (day: number) => day % 7 === rest;
        const { visits, lateDays } = teamOrder(named, { ...TEAM, movingHours, isRest });
        expect(visits.map(({ plotId }) => plotId).sort()).toEqual(named.map(({ plotId }) => plotId).sort());
        for (const { plotId, on, doneOn, lateDays: late } of visits) {
          const { releaseOn, lastOn } = named.find((one) => one.plotId === plotId)!;
          expect(on).toBeGreaterThanOrEqual(Math.max(releaseOn, TEAM.from));
          expect(doneOn).toBeGreaterThanOrEqual(on);
          expect(isRest(on) || isRest(doneOn)).toBe(false);
          expect(late).toBe(Math.max(0, doneOn - lastOn));
        }
        expect(lateDays).toBe(Math.max(...visits.map((one) => one.lateDays)));
      },
    ),
  );
});
