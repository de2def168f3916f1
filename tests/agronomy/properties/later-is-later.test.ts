/** What a plan does when one thing in a season changes: later work opens nothing earlier, more rain nothing later. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { networkOf } from '../../../src/agronomy/constraints.ts';
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import type { PlanStep, PlotPlan } from '../../../src/agronomy/plot-plan.ts';
import { problemOf } from '../../../src/agronomy/problem-of.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Report, Season } from '../../../src/agronomy/season.ts';
import { solve } from '../../../src/plan/solve.ts';
import { rains, seasons, TODAY } from './any-season.ts';

const RUNS = { numRuns: 450 };
const plan = (season: Season) => planPlot(season, book, TODAY);
/**
 * Days of rest move single steps to and fro, and a nursery that is sown later grows faster where it gets warmer: windows
 * are compared without them.
 */
const unresting = seasons.map(({ restDays: _, climate, ...season }): Season => {
  const { meanTemperatureC: __, ...rest } = climate ?? { source: '' };
  return { ...season, ...(climate && { climate: rest }) };
});

/** Steps still to come in both plans, by pairs, with a first day in both. */
function openInBoth(a: PlotPlan, b: PlotPlan): readonly (readonly [PlanStep, PlanStep])[] {
  const isOpen = ({ status, earliest }: PlanStep) =>
    (status === 'open' || status === 'next') && earliest !== null;
  return a.steps.filter(isOpen).flatMap((step) => {
    const other = b.steps.find(({ activity, round }) => activity === step.activity && round === step.round);
    return other && isOpen(other) ? [[step, other] as const] : [];
  });
}

/** Checks that no step opens earlier in the second plan; returns how many were compared. */
function opensNoEarlier(before: PlotPlan, after: PlotPlan): number {
  // A lower bound that has given way lets work begin earlier: that is told as a breach.
  if (after.breaches.some(({ side }) => side === 'lo')) return 0;
  // And so is a rule that cannot be broken and is given up: soaked seed that waited too long in one of the two.
  if (givenUp(before) !== givenUp(after)) return 0;
  const pairs = openInBoth(before, after);
  for (const [one, other] of pairs)
    expect(other.earliest, one.activity).toBeGreaterThanOrEqual(one.earliest ?? 0);
  return pairs.length;
}

/** The rules that clashes turn on. */
const givenUp = ({ conflicts }: PlotPlan): string =>
  conflicts
    .map(({ rules }) => rules[0])
    .sort()
    .join();

/** Whether a report can be a day later without changing its place among the others. */
function isFree({ reports, cropLostOn, nurseryGivenUpOn }: Season, report: Report): boolean {
  const { on } = report;
  if (on === null || on >= TODAY || on === cropLostOn || on === nurseryGivenUpOn) return false;
  return !reports.some((other) => other !== report && (other.on === on || other.on === on + 1));
}

it('the same work reported a day later opens no step earlier', () => {
  let compared = 0;
  fc.assert(
    fc.property(unresting, (season) => {
      const before = plan(season);
      for (const report of season.reports.filter((one) => isFree(season, one))) {
        const later = { ...report, on: (report.on ?? 0) + 1 };
        const reports = season.reports.map((one) => (one === report ? later : one));
        compared += opensNoEarlier(before, plan({ ...season, reports }));
      }
    }),
    RUNS,
  );
  expect(compared).toBeGreaterThan(2000);
});

it.each(['waterFrom', 'machineFrom', 'floodedUntil'] as const)('a later %s opens no step earlier', (lack) => {
  let compared = 0;
  fc.assert(
    fc.property(unresting, fc.integer({ min: 1, max: 30 }), (season, days) => {
      const before = plan(season);
      const after = plan({ ...season, [lack]: (season[lack] ?? TODAY) + days });
      compared += opensNoEarlier(before, after);
    }),
    RUNS,
  );
  expect(compared).toBeGreaterThan(2000);
});

it('more rain opens no step later', () => {
  let compared = 0;
  const rainFed = unresting.map(
    (season): Season => ({ ...season, way: { ...season.way, water: 'rain-fed' } }),
  );
  fc.assert(
    fc.property(rainFed, rains, (season, more) => {
      const wetter = plan({ ...season, rains: [...(season.rains ?? []), ...more] });
      compared += opensNoEarlier(wetter, plan(season));
    }),
    RUNS,
  );
  expect(compared).toBeGreaterThan(2000);
});

it('a network that was tightened is not changed by tightening it again', () => {
  fc.assert(
    fc.property(unresting, (season) => {
      const network = networkOf(problemOf(season, book, TODAY, TODAY));
      const once = solve(network);
      const twice = solve({ ...network, gaps: once.gaps });
      expect([twice.breaches, twice.blocked, twice.settled]).toEqual([[], [], []]);
      expect(twice.windows.map(({ earliest, latest }) => [earliest, latest])).toEqual(
        once.windows.map(({ earliest, latest }) => [earliest, latest]),
      );
    }),
    RUNS,
  );
});

it('the same season gives the same plan', () => {
  fc.assert(
    fc.property(seasons, (season) => {
      expect(plan(structuredClone(season))).toEqual(plan(season));
    }),
    { numRuns: 300 },
  );
});

it('reports of different days may come in any order', () => {
  // Reports of which the newest counts, among the others: depths at spots, and nurseries in the cold.
  const spots = (on: number, spotsCm: readonly number[]): Report => ({
    activity: 'level',
    stage: 'finished',
    on,
    measures: { spotsCm },
  });
  const sown = (on: number): Report => ({ activity: 'sow-nursery', stage: 'finished', on });
  const newest = [spots(TODAY - 11, [2, 30]), spots(TODAY - 5, [2, 12]), sown(TODAY - 101), sown(TODAY - 13)];
  const cold = { source: 'invented', meanTemperatureC: [9, 14, 18, 21, 24, 26, 26, 25, 22, 18, 13, 10] };
  const telling = seasons.map(
    (season): Season => ({ ...season, climate: cold, reports: [...newest, ...season.reports] }),
  );
  const shuffled = fc.oneof(seasons, telling).chain((season) =>
    fc.shuffledSubarray([...season.reports], { minLength: season.reports.length }).map((reports) => ({
      season,
      reports,
    })),
  );
  const inOrder = ({ lapses, ...rest }: PlotPlan) => ({
    ...rest,
    lapses: lapses.map((lapse) => JSON.stringify(lapse)).sort(),
  });
  let moved = 0;
  fc.assert(
    fc.property(shuffled, ({ season, reports }) => {
      const days = season.reports.map(({ on }) => on);
      fc.pre(new Set(days).size === days.length);
      if (reports.some((report, index) => report !== season.reports[index])) moved++;
      expect(inOrder(plan({ ...season, reports }))).toEqual(inOrder(plan(season)));
    }),
    RUNS,
  );
  expect(moved).toBeGreaterThan(200);
});
