/** The whole path from a season to its plan: facts, network, windows, due dates, and the ways out. */
import type { Day } from '../plan/day.ts';
import { type Conflict, type Gap, ORIGIN, type Solution, type Window } from '../plan/network.ts';
import { schedule } from '../plan/schedule.ts';
import { solve } from '../plan/solve.ts';
import { aimsOf } from './aims.ts';
import { COSTS_OF } from './calendar-gaps.ts';
import { networkOf } from './constraints.ts';
import { type CropDays, cropDays } from './crop-days.ts';
import { byDay, type Fact, standingReports } from './facts.ts';
import { endOf, startOf, stepOf } from './frame.ts';
import { lapsesOf } from './lapses.ts';
import type { PlanBreach, PlanStep, PlotPlan } from './plot-plan.ts';
import { isPast, type Problem } from './problem.ts';
import { harvestUnknown, problemOf } from './problem-of.ts';
import type { RainWait } from './rain-gates.ts';
import { remediesOf } from './remedies.ts';
import { fitsCalendar, NO_REST, REST, restGaps } from './rest-days.ts';
import { figure, type Rulebook, type Step } from './rulebook.ts';
import type { Activity, Season } from './season.ts';
import { standingWater } from './standing-water.ts';
import { unevennessOf } from './unevenness.ts';
import { nearestWorkday } from './working-days.ts';

/** Plans one season as it stands on this day. Never throws on odd reports: they become lapses, breaches or conflicts. */
export function planPlot(season: Season, book: Rulebook, today: Day): PlotPlan {
  const plan = planWithoutRemedies(season, book, today);
  const replan = (other: Season) => planWithoutRemedies(other, book, today);
  return {
    ...plan,
    remedies: remediesOf(season, book, plan, replan),
    unevenness: unevennessOf(season, book, plan, replan),
  };
}

function planWithoutRemedies(season: Season, book: Rulebook, today: Day): PlotPlan {
  const sown = sownOn(season);
  const first = settle(problemOf(season, book, today, sown ?? today));
  const again = sown === null && season.climate?.meanTemperatureC ? sowingDay(first) : null;
  const asWarm = again === null || sameAges(cropDays(book, season, again), first.problem.crop);
  return planFrom(asWarm ? first : settle(problemOf(season, book, today, again)));
}

const sameAges = (a: CropDays, b: CropDays) =>
  a.seedlingAge === b.seedlingAge && a.seedlingLimit === b.seedlingLimit;

/** A problem with its solution and one day for every point. */
interface Settled {
  readonly problem: Problem;
  /** The gaps that were solved, to which its breaches point. */
  readonly gaps: readonly Gap[];
  readonly solution: Solution;
  readonly days: readonly Day[];
}

/** Solves and schedules; with days of rest, again until no open step falls on one. */
function settle(problem: Problem): Settled {
  const network = networkOf(problem);
  const fits = fitsCalendar(problem);
  let rest = NO_REST;
  for (let round = 0; ; round++) {
    const gaps = [...network.gaps, ...rest.firm, ...rest.moves];
    const solution = solve({ ...network, gaps });
    const aims = aimsOf(problem, without(solution, rest.moves));
    const days = schedule(solution, problem.frame.points, aims, fits);
    const more = restGaps(problem, { solution, days }, rest, round);
    if (more === null) return { problem, gaps, solution, days };
    rest = more;
  }
}

/** Wishes are measured by what holds in any case: a wish that follows the moves would chase them through the year. */
function without(solution: Solution, moves: readonly Gap[]): Solution {
  return moves.length === 0
    ? solution
    : { ...solution, gaps: solution.gaps.filter((gap) => !moves.includes(gap)) };
}

function planFrom(settled: Settled): PlotPlan {
  const { problem, solution } = settled;
  const all = problem.facts.map((fact, step) => planStep(settled, fact, step));
  const steps = withoutOvertaken(problem.book, all);
  const isTold = (breach: PlanBreach) =>
    steps.some(({ activity, round }) => activity === breach.activity && round === breach.round);
  return {
    today: problem.today,
    crop: problem.crop,
    steps: withNext(steps),
    breaches: breachesOf(settled).filter(isTold),
    lapses: lapsesOf(problem),
    conflicts: withoutWider(solution.blocked),
    remedies: [],
    unevenness: null,
    water: standingWater(problem.book, problem.season, problem.today),
    fallowUntil: fallowUntil(problem),
    lacksHarvestDate: harvestUnknown(problem.season),
  };
}

/** In the cold a nursery takes longer, so its days hang on when it is sown: as planned for the usual warmth. */
function sowingDay({ problem, days }: Settled): Day | null {
  const step = problem.frame.steps.findIndex(({ activity }) => activity === 'sow-nursery');
  return step < 0 ? null : (days[startOf(step)] ?? null);
}

function sownOn(season: Season): Day | null {
  const sown = standingReports(season).filter(({ activity }) => activity === 'sow-nursery');
  return sown.sort(byDay).at(-1)?.on ?? null;
}

/** The day until which the plot rests after its harvest; null while the crop stands. */
function fallowUntil({ book, frame, facts }: Problem): Day | null {
  const harvest = facts[frame.steps.findIndex(({ activity }) => activity === 'harvest')];
  return harvest?.state === 'done' && harvest.on !== null ? harvest.on + figure(book, 'fallow') : null;
}

const NO_WINDOW: Window = { earliest: null, latest: null, earliestBecause: [], latestBecause: [] };

function planStep({ problem, solution, days }: Settled, fact: Fact, step: number): PlanStep {
  const rest = problem.season.restDays;
  const { activity, round, optional } = problem.frame.steps[step] as Step;
  const done = fact.state === 'done';
  const point = fact.state === 'started' ? endOf(step) : startOf(step);
  const window = (done ? undefined : solution.windows[point]) ?? NO_WINDOW;
  const due = done ? null : (days[point] ?? null);
  const end = days[endOf(step)] ?? null;
  return {
    activity,
    round: round ?? null,
    status: fact.state,
    optional: optional === true,
    on: done ? fact.on : fact.startedOn,
    implied: fact.implied,
    earliest: workdayWithin(rest, window.earliest, due, 1),
    due,
    latest: workdayWithin(rest, window.latest, due, -1),
    doneBy: fact.state === 'open' && end !== null && due !== null && end > due ? end : null,
    earliestBecause: window.earliestBecause,
    latestBecause: window.latestBecause,
    waitsFor: done ? null : waitOf(problem, activity),
  };
}

/** A bound moved off days of rest, as far as the due day. */
function workdayWithin(
  rest: Season['restDays'],
  bound: Day | null,
  due: Day | null,
  step: 1 | -1,
): Day | null {
  if (!rest || bound === null || due === null) return bound;
  const moved = nearestWorkday(rest, bound, step);
  return step === 1 ? Math.min(moved, due) : Math.max(moved, due);
}

function waitOf({ rainWaits }: Problem, activity: Activity): RainWait | null {
  return rainWaits.find((wait) => wait.activity === activity && wait.state !== 'met') ?? null;
}

/** A round of work that falls on the next round, or after it, is left out: old seedlings are fed once. */
function withoutOvertaken(book: Rulebook, steps: readonly PlanStep[]): readonly PlanStep[] {
  const apart = figure(book, 'round-apart');
  return steps.filter(({ activity, round, status, due }) => {
    const later = steps.find((one) => one.activity === activity && one.round === (round ?? 0) + 1);
    const overtaken =
      later?.status === 'open' && later.due !== null && due !== null && later.due < due + apart;
    return !(status === 'open' && round !== null && overtaken);
  });
}

/** Exactly one step is next while any is open: the one that is due first; ties in the order of the field. */
function withNext(steps: readonly PlanStep[]): readonly PlanStep[] {
  let next: PlanStep | null = null;
  for (const step of steps) {
    if (step.status !== 'open' || step.optional || step.due === null) continue;
    if (!next || next.due === null || step.due < next.due) next = step;
  }
  return steps.map((step) => (step === next ? { ...step, status: 'next' } : step));
}

/** One rule may stand for several bounds: where it gives way to fewer rules already, it is told of those. */
function withoutWider(conflicts: readonly Conflict[]): readonly Conflict[] {
  const isWithin = (a: Conflict, b: Conflict) =>
    a !== b && a.rules[0] === b.rules[0] && a.rules.every((rule) => b.rules.includes(rule));
  return conflicts.filter((conflict) => !conflicts.some((other) => isWithin(other, conflict)));
}

function breachesOf({ problem, gaps, solution }: Settled): readonly PlanBreach[] {
  const isOpen = ({ from, to }: Gap) =>
    ![from, to].every((point) => point === ORIGIN || isPast(problem, point));
  const ofRules = solution.breaches.filter(({ rule, gap }) => rule !== REST && isOpen(gaps[gap] as Gap));
  return ofRules.map(({ gap, rule, side, byDays }) => {
    const own = problem.book.rules.find(
      (one) => one.name === rule && (side === 'lo' ? one.costLo : one.costHi),
    );
    const cost = (side === 'lo' ? own?.costLo : own?.costHi) ?? COSTS_OF[rule]?.[side];
    if (!cost) throw new RangeError(`No cost is given for leaving "${rule}".`);
    const { activity, round = null } = openEnd(problem, gaps[gap] as Gap);
    return { rule, side, byDays, cost, activity, round };
  });
}

/** The step at the far end of a gap, or at its near end where the far one is past or no step at all. */
function openEnd(problem: Problem, { from, to }: Gap): Step {
  const point = to === ORIGIN || isPast(problem, to) ? from : to;
  return problem.frame.steps[stepOf(point)] as Step;
}
