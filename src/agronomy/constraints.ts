/** From a season to the planner's network: reports pin points, work takes days, rules are gaps, today bounds what is open. */
import type { Day } from '../plan/day.ts';
import { type Gap, type Network, ORIGIN, type Point } from '../plan/network.ts';
import type { Fact } from './facts.ts';
import { endOf, type Frame, type FramedRule, plantingStep, startOf, stepOf } from './frame.ts';
import type { Rulebook } from './rulebook.ts';
import type { Activity, Season } from './season.ts';

/** Steps that need water in the block's canal on the day they start. */
const NEED_WATER: readonly Activity[] = ['soak', 'flood', 'puddle'];
/** Steps that need the tractor, the animals or the hoes. */
const NEED_MACHINE: readonly Activity[] = ['plough', 'puddle'];
/** Planting outside the group's dates: early feeds the rats and birds of the whole block, late is often forced. */
export const OUT_OF_STEP_EARLY = {
  rank: 5,
  name: 'out-of-step',
  text: 'the plot is out of step with its neighbours',
};
export const OUT_OF_STEP_LATE = {
  rank: 2,
  name: 'out-of-step',
  text: 'the plot is out of step with its neighbours',
};
/** A canal that is shut has a way out: asking for water. Rules dearer than this are kept, and water is asked for. */
const WATER_YIELDS_AT = 6;
/** Which `must` is given up first when only `must`s are left: the one with a way out. */
const DROP_FIRST = 1;

export interface Problem {
  readonly season: Season;
  readonly book: Rulebook;
  readonly today: Day;
  readonly frame: Frame;
  readonly facts: readonly Fact[];
}

/** Whether this point lies in the past for good: its step is done, or it is the start of one under way. */
export function isPast(problem: Problem, point: Point): boolean {
  const state = (problem.facts[stepOf(point)] as Fact).state;
  return state === 'done' || (state === 'started' && point === startOf(stepOf(point)));
}

/** All constraints of the season on this day. Rules between two points in the past are left to the lapses. */
export function networkOf(problem: Problem): Network {
  const gaps: Gap[] = [];
  problem.frame.steps.forEach((_, step) => {
    gaps.push(...stepGaps(problem, step));
  });
  for (const framed of problem.frame.rules) {
    if (!(isPast(problem, framed.from) && isPast(problem, framed.to))) gaps.push(...ruleGaps(framed));
  }
  return { points: problem.frame.points, gaps: [...gaps, ...targetGaps(problem)] };
}

function must(from: Point, to: Point, lo: number | null, hi: number | null, rule: string): Gap {
  return { from, to, lo, hi, strength: 'must', rule };
}

function stepGaps(problem: Problem, step: number): Gap[] {
  const fact = problem.facts[step] as Fact;
  const { activity } = problem.frame.steps[step] as { activity: Activity };
  const days = problem.frame.days[step] ?? 1;
  const [start, end] = [startOf(step), endOf(step)];
  const report = `report:${activity}`;
  switch (fact.state) {
    case 'done':
      return doneGaps(problem, step, days);
    case 'started':
      return [
        fact.startedOn === null
          ? must(ORIGIN, start, null, problem.today, report)
          : must(ORIGIN, start, fact.startedOn, fact.startedOn, report),
        must(start, end, days - 1, null, `work:${activity}`),
        must(ORIGIN, end, problem.today, null, 'today'),
      ];
    case 'open':
      return [
        must(ORIGIN, start, problem.today, null, 'today'),
        must(start, end, days - 1, days - 1, `work:${activity}`),
        ...waterGaps(problem, activity, start),
        ...lackGaps(problem, activity, start),
      ];
  }
}

/** A finished step is pinned at its end; done on an unknown day, it lies before the known work that implies it. */
function doneGaps(problem: Problem, step: number, days: number): Gap[] {
  const fact = problem.facts[step] as Fact;
  const [start, end] = [startOf(step), endOf(step)];
  const report = `report:${(problem.frame.steps[step] as { activity: Activity }).activity}`;
  if (fact.on === null) {
    return [must(ORIGIN, end, null, latestEnd(problem, step), report), must(start, end, 0, null, report)];
  }
  const [from, to] = startSpan(fact, days) as readonly [Day, Day];
  return [must(ORIGIN, end, fact.on, fact.on, report), must(ORIGIN, start, from, to, report)];
}

/** First and last day on which a step that ended on a known day can have begun; null when unknown. */
export function startSpan(fact: Fact, days: number): readonly [Day, Day] | null {
  if (fact.startedOn !== null) return [fact.startedOn, fact.startedOn];
  return fact.on === null ? null : [fact.on - (days - 1), fact.on];
}

function latestEnd(problem: Problem, step: number): Day {
  const { steps } = problem.frame;
  const days = steps.flatMap((later, index) => {
    const fact = problem.facts[index] as Fact;
    const known = fact.startedOn ?? fact.on;
    return known !== null &&
      implies(problem.book, later.activity, (steps[step] as { activity: Activity }).activity)
      ? [known]
      : [];
  });
  return Math.min(problem.today, ...days);
}

function implies(book: Rulebook, later: Activity, earlier: Activity): boolean {
  const before = book.steps.find((step) => step.activity === later)?.implies ?? [];
  return before.includes(earlier) || before.some((activity) => implies(book, activity, earlier));
}

/** What the grower lacks till a day that he has told: no work that needs it starts before. */
function lackGaps({ season }: Problem, activity: Activity, start: Point): Gap[] {
  const gaps: Gap[] = [];
  if (season.waterFrom !== undefined && NEED_WATER.includes(activity))
    gaps.push(must(ORIGIN, start, season.waterFrom, null, 'no-water'));
  if (season.machineFrom !== undefined && NEED_MACHINE.includes(activity))
    gaps.push(must(ORIGIN, start, season.machineFrom, null, 'no-machine'));
  return gaps;
}

function waterGaps(problem: Problem, activity: Activity, start: Point): Gap[] {
  const { from, to } = problem.season.blockWater;
  if (!NEED_WATER.includes(activity) || (from === null && to === null)) return [];
  return [
    { ...must(ORIGIN, start, from, to, 'block-water'), yieldsAt: WATER_YIELDS_AT, dropRank: DROP_FIRST },
  ];
}

function ruleGaps({ rule, from, to, lo, hi }: FramedRule): Gap[] {
  if (rule.strength === 'aim' || (lo === null && hi === null)) return [];
  const gap: Gap = {
    from,
    to,
    lo,
    hi,
    strength: rule.strength,
    rule: rule.name,
    ...(rule.costLo && { costLo: rule.costLo.rank }),
    ...(rule.costHi && { costHi: rule.costHi.rank }),
    ...(rule.yieldsAt !== undefined && { yieldsAt: rule.yieldsAt, dropRank: DROP_FIRST }),
  };
  const keepsOrder = rule.strength === 'should' && lo !== null && lo >= 0;
  return keepsOrder ? [gap, must(from, to, 0, null, `order:${rule.name}`)] : [gap];
}

function targetGaps(problem: Problem): Gap[] {
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
