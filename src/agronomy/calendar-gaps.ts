/** What is fixed on the calendar rather than by other work: water, rain, lacks, the group's dates, a local harvest date. */
import type { Day } from '../plan/day.ts';
import { type Gap, ORIGIN, type Point } from '../plan/network.ts';
import type { Fact } from './facts.ts';
import { plantingStep, startOf } from './frame.ts';
import { isPast, type Problem } from './problem.ts';
import { type Cost, figure } from './rulebook.ts';
import type { Activity, Turn } from './season.ts';

/** Steps that need water in the block's canal on the day they start. */
const NEED_WATER: readonly Activity[] = ['soak', 'flood', 'puddle'];
const IN_NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];
/** Steps that need the tractor, the animals or the hoes. */
const NEED_MACHINE: readonly Activity[] = ['plough', 'puddle'];
/** Planting outside the group's dates: early feeds the rats and birds of the whole block, late is often forced. */
export const OUT_OF_STEP_EARLY = {
  rank: 5,
  name: 'out-of-step',
  text: 'the plot is out of step with its neighbours',
};
const GREEN: Cost = { rank: 3, name: 'green-grain', text: 'grain is still green' };
const SHED: Cost = { rank: 3, name: 'grain-shed', text: 'grain sheds and birds take it' };
export const OUT_OF_STEP_LATE = {
  rank: 2,
  name: 'out-of-step',
  text: 'the plot is out of step with its neighbours',
};
/** What it costs to leave the bounds that are no rules of the book: the group's dates, the local harvest. */
const TURN_MISSED: Cost = { rank: 5, name: 'turn-missed', text: 'the water has gone on to the next plots' };
const TEAM_GONE: Cost = { rank: 5, name: 'team-gone', text: 'the tractor has gone on to the next plots' };
export const COSTS_OF: Readonly<Record<string, { readonly lo: Cost; readonly hi: Cost }>> = {
  'water-turn': { lo: TURN_MISSED, hi: TURN_MISSED },
  'team-visit': { lo: TEAM_GONE, hi: TEAM_GONE },
  target: { lo: OUT_OF_STEP_EARLY, hi: OUT_OF_STEP_LATE },
  'local-harvest': { lo: GREEN, hi: SHED },
};
/** A canal that is shut has a way out: asking for water. Rules dearer than this are kept, and water is asked for. */
const WATER_YIELDS_AT = 6;
/** Which `must` is given up first when only `must`s are left: the one with a way out. */
export const DROP_FIRST = 1;

/** A gap in days that cannot be broken. */
export function must(from: Point, to: Point, lo: number | null, hi: number | null, rule: string): Gap {
  return { from, to, lo, hi, strength: 'must', rule };
}

/** Bounds on the start of an open step. */
export function calendarGaps(problem: Problem, activity: Activity, start: Point): readonly Gap[] {
  return [
    ...waterGaps(problem, activity, start),
    ...lackGaps(problem, activity, start),
    ...turnGaps(problem, activity, start),
    ...rainGaps(problem, activity, start),
  ];
}

/** What the grower lacks till a day that he has told: no work that needs it starts before. */
function lackGaps({ season }: Problem, activity: Activity, start: Point): Gap[] {
  const gaps: Gap[] = [];
  if (season.waterFrom !== undefined && NEED_WATER.includes(activity))
    gaps.push(must(ORIGIN, start, season.waterFrom, null, 'no-water'));
  if (season.machineFrom !== undefined && NEED_MACHINE.includes(activity))
    gaps.push(must(ORIGIN, start, season.machineFrom, null, 'no-machine'));
  if (season.floodedUntil !== undefined && !IN_NURSERY.includes(activity))
    gaps.push(must(ORIGIN, start, season.floodedUntil, null, 'flooded-out'));
  return gaps;
}

/** A turn at the canal is for flooding. */
const TURN_IS_FOR: Activity = 'flood';

/** What comes to the plot on its turn is not there before; when it has gone by, the turn no longer counts. */
function turnGaps({ season, today }: Problem, activity: Activity, start: Point): Gap[] {
  const { waterTurn, teamVisit } = season;
  return [
    ...(waterTurn && activity === TURN_IS_FOR ? turnOf(waterTurn, start, 'water-turn', today) : []),
    ...(teamVisit?.activity === activity ? turnOf(teamVisit, start, 'team-visit', today) : []),
  ];
}

function turnOf({ from, to }: Turn, start: Point, rule: string, today: Day): Gap[] {
  if (to < today) return [];
  const cost = COSTS_OF[rule]?.hi.rank ?? 0;
  return [
    { ...must(ORIGIN, start, from, null, rule), yieldsAt: WATER_YIELDS_AT, dropRank: DROP_FIRST },
    { from: ORIGIN, to: start, lo: null, hi: to, strength: 'should', rule, costHi: cost },
  ];
}

function rainGaps({ rainWaits }: Problem, activity: Activity, start: Point): Gap[] {
  return rainWaits
    .filter((wait) => wait.activity === activity)
    .map(({ from, rule }) => must(ORIGIN, start, from, null, rule));
}

/** A crop that ripens by a local date is cut about then. */
export function harvestGaps({ season, book, frame, facts }: Problem): Gap[] {
  const step = frame.steps.findIndex(({ activity }) => activity === 'harvest');
  const on = season.harvestOn;
  if (season.way.ripens !== 'by-local-date' || on === undefined || step < 0) return [];
  if ((facts[step] as Fact).state !== 'open') return [];
  return [
    {
      from: ORIGIN,
      to: startOf(step),
      lo: on - figure(book, 'harvest.early'),
      hi: on + figure(book, 'harvest.late'),
      strength: 'should',
      rule: 'local-harvest',
      costLo: GREEN.rank,
      costHi: SHED.rank,
    },
  ];
}

function waterGaps(problem: Problem, activity: Activity, start: Point): Gap[] {
  const { from, to } = problem.season.blockWater;
  if (!NEED_WATER.includes(activity) || (from === null && to === null)) return [];
  return [
    { ...must(ORIGIN, start, from, to, 'block-water'), yieldsAt: WATER_YIELDS_AT, dropRank: DROP_FIRST },
  ];
}

/** The group's dates for planting. */
export function targetGaps(problem: Problem): Gap[] {
  const { from, to } = problem.season.target;
  const step = plantingStep(problem.frame.steps);
  if (step < 0 || isPast(problem, startOf(step)) || (from === null && to === null)) return [];
  return [
    {
      from: ORIGIN,
      to: startOf(step),
      lo: from,
      hi: to,
      strength: 'should',
      rule: 'target',
      costLo: OUT_OF_STEP_EARLY.rank,
      costHi: OUT_OF_STEP_LATE.rank,
    },
  ];
}
