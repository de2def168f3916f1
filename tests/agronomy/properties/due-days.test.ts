/** Due days of every season: inside their windows, on working days, and as far apart as the rules say. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holds } from '../../../src/agronomy/frame.ts';
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import { type PlanStep, type PlotPlan, stepFor } from '../../../src/agronomy/plot-plan.ts';
import type { PointName, Rule } from '../../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../../src/agronomy/season.ts';
import { boundDays } from '../../../src/agronomy/variety.ts';
import { workDays } from '../../../src/agronomy/work-days.ts';
import { isWorkday } from '../../../src/agronomy/working-days.ts';
import { restDays, seasons, TODAY } from './any-season.ts';

const RUNS = { numRuns: 1000 };
const isOpen = ({ status }: PlanStep) => status === 'open' || status === 'next';
const resting = fc.tuple(seasons, restDays).map(([season, rest]) => ({ ...season, restDays: rest }));

/** Whether some rule of the plan has given way, so that its days may stand rigidly to each other. */
const hasGivenWay = ({ breaches, conflicts }: PlotPlan) => breaches.length + conflicts.length > 0;

function workdaysBetween(season: Season, from: number, to: number): number {
  let count = 0;
  for (let day = from; day <= to; day++) if (isWorkday(season.restDays, day)) count++;
  return count;
}

it('lie inside their windows, and never before today', () => {
  fc.assert(
    fc.property(seasons, (season) => {
      for (const { activity, status, earliest, due, latest } of planPlot(season, book, TODAY).steps) {
        if (status === 'done') continue;
        expect(due, activity).not.toBeNull();
        expect(due, activity).toBeGreaterThanOrEqual(Math.max(TODAY, earliest ?? TODAY));
        expect(due, activity).toBeLessThanOrEqual(latest ?? Infinity);
      }
    }),
    RUNS,
  );
});

it('make exactly one step the next one, the first that is due', () => {
  fc.assert(
    fc.property(seasons, (season) => {
      const { steps } = planPlot(season, book, TODAY);
      const next = steps.filter(({ status }) => status === 'next');
      const open = steps.filter((step) => isOpen(step) && !step.optional);
      expect(next).toHaveLength(Math.min(1, open.length));
      for (const { due } of open) expect(due).toBeGreaterThanOrEqual(next[0]?.due ?? 0);
    }),
    RUNS,
  );
});

/** The day of a rule's end in the plan; null where it is not known or lies within a span. */
function dayOf(plan: PlotPlan, season: Season, { activity, at, round }: PointName): number | null {
  const step = stepFor(plan, activity, round);
  if (!step) return null;
  if (step.status === 'started') return at === 'start' ? step.on : step.due;
  if (isOpen(step)) return at === 'start' ? step.due : (step.doneBy ?? step.due);
  const isOneDay = workDays(book, season, activity) === 1;
  const begun = season.reports.some((report) => report.activity === activity && report.stage === 'started');
  return at === 'end' || (isOneDay && !begun) ? step.on : null;
}

function isPast(plan: PlotPlan, { activity, at, round }: PointName): boolean {
  const status = stepFor(plan, activity, round)?.status;
  return status === 'done' || (status === 'started' && at === 'start');
}

/** Rules that the plan is held to: of the way, with an end still to come, and not told to have given way. */
function rulesHeld(plan: PlotPlan, season: Season): readonly Rule[] {
  const given = [...plan.breaches.map(({ rule }) => rule), ...plan.conflicts.flatMap(({ rules }) => rules)];
  const underWay = stepFor(plan, 'transplant')?.status === 'started';
  return book.rules.filter((rule) => {
    const [from, to] = [isPast(plan, rule.from), isPast(plan, rule.to)];
    if (!holds(rule.when, season.way) || rule.strength === 'aim') return false;
    if (rule.whileOpen ? from || to : from && to) return false;
    // Once planting has begun, seedlings that are too old cannot be helped any more.
    if (rule.name === 'seedling-old' && underWay) return false;
    return !given.includes(rule.name) && !given.includes(`order:${rule.name}`);
  });
}

it('keep every rule that has not given way', () => {
  let kept = 0;
  fc.assert(
    fc.property(seasons, (season) => {
      const plan = planPlot(season, book, TODAY);
      const bound = (one: Rule['lo']) => boundDays(book, one, season.varietyDays, plan.crop);
      for (const rule of rulesHeld(plan, season)) {
        const isByDate = rule.name === 'topdress-by-date';
        const from = dayOf(plan, season, rule.from);
        const to = isByDate ? (season.harvestOn ?? null) : dayOf(plan, season, rule.to);
        if (from === null || to === null) continue;
        kept++;
        expect(to - from, rule.name).toBeGreaterThanOrEqual(bound(rule.lo) ?? -Infinity);
        expect(to - from, rule.name).toBeLessThanOrEqual(bound(rule.hi) ?? Infinity);
      }
    }),
    RUNS,
  );
  expect(kept).toBeGreaterThan(3000);
});

/** Open steps that begin on a day of rest though their window has a working day. */
const misplaced = (season: Season, { steps }: PlotPlan) =>
  steps
    .filter(isOpen)
    .filter(
      ({ due, earliest, latest }) =>
        due !== null &&
        !isWorkday(season.restDays, due) &&
        workdaysBetween(season, earliest ?? due, latest ?? due + 60) > 0,
    )
    .map(({ activity }) => activity);

it('begin no work on a day of rest, unless its whole window is rest or a rule has given way', () => {
  fc.assert(
    fc.property(resting, (season) => {
      const plan = planPlot(season, book, TODAY);
      if (!hasGivenWay(plan)) expect(misplaced(season, plan)).toEqual([]);
    }),
    RUNS,
  );
});

it('seldom begin work on a day of rest where a rule has given way', () => {
  let [rests, steps] = [0, 0];
  fc.assert(
    fc.property(resting, (season) => {
      const plan = planPlot(season, book, TODAY);
      steps += plan.steps.filter(isOpen).length;
      rests += misplaced(season, plan).length;
    }),
    RUNS,
  );
  expect(rests / steps).toBeLessThan(0.005);
});

it('leave work its working days: not one less, and seldom one more', () => {
  let [long, loose] = [0, 0];
  fc.assert(
    fc.property(fc.oneof(seasons, resting), (season) => {
      const plan = planPlot(season, book, TODAY);
      for (const { activity, due, doneBy } of plan.steps.filter(isOpen)) {
        if (due === null || !isWorkday(season.restDays, due)) continue;
        const needed = workDays(book, season, activity);
        const given = workdaysBetween(season, due, doneBy ?? due);
        expect(given, activity).toBeGreaterThanOrEqual(needed);
        if (needed > 1) long++;
        if (!season.restDays) expect(given, activity).toBe(needed);
        else if (given > needed) loose++;
      }
    }),
    RUNS,
  );
  expect(long).toBeGreaterThan(300);
  expect(loose / long).toBeLessThan(0.01);
});
