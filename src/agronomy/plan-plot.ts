/** The whole path from a season to its plan: facts, network, windows, due dates, and the ways out. */
import type { Day } from '../plan/day.ts';
import type { Solution, Window } from '../plan/network.ts';
import { schedule } from '../plan/schedule.ts';
import { solve } from '../plan/solve.ts';
import { aimsOf } from './aims.ts';
import { networkOf, OUT_OF_STEP_EARLY, OUT_OF_STEP_LATE, type Problem } from './constraints.ts';
import { type Fact, factsOf } from './facts.ts';
import { endOf, frameOf, startOf } from './frame.ts';
import { lapsesOf } from './lapses.ts';
import { missedSteps } from './missed.ts';
import type { PlanBreach, PlanStep, PlotPlan } from './plot-plan.ts';
import { remediesOf } from './remedies.ts';
import type { Rulebook, Step } from './rulebook.ts';
import type { Season } from './season.ts';

/** Plans one season as it stands on this day. Never throws on odd reports: they become lapses, breaches or conflicts. */
export function planPlot(season: Season, book: Rulebook, today: Day): PlotPlan {
  const plan = planWithoutRemedies(season, book, today);
  return {
    ...plan,
    remedies: remediesOf(season, book, plan, (other) => planWithoutRemedies(other, book, today)),
  };
}

function planWithoutRemedies(season: Season, book: Rulebook, today: Day): PlotPlan {
  const problem = problemOf(season, book, today);
  const solution = solve(networkOf(problem));
  const days = schedule(solution, problem.frame.points, aimsOf(problem, solution));
  return {
    today,
    steps: withNext(problem.facts.map((fact, step) => planStep(problem, solution, days, fact, step))),
    breaches: breachesOf(problem, solution),
    lapses: lapsesOf(problem),
    conflicts: solution.blocked,
    remedies: [],
  };
}

function problemOf(season: Season, book: Rulebook, today: Day): Problem {
  const whole = frameOf(book, season);
  const all: Problem = { season, book, today, frame: whole, facts: factsOf(book, season, whole.steps) };
  const missed = missedSteps(all);
  if (missed.size === 0) return all;
  const frame = frameOf(book, season, (step) => missed.has(step));
  return { ...all, frame, facts: factsOf(book, season, frame.steps) };
}

const NO_WINDOW: Window = { earliest: null, latest: null, earliestBecause: [], latestBecause: [] };

function planStep(
  problem: Problem,
  solution: Solution,
  days: readonly Day[],
  fact: Fact,
  step: number,
): PlanStep {
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
    earliest: window.earliest,
    due,
    latest: window.latest,
    doneBy: fact.state === 'open' && end !== null && due !== null && end > due ? end : null,
    earliestBecause: window.earliestBecause,
    latestBecause: window.latestBecause,
  };
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

function breachesOf(problem: Problem, solution: Solution): readonly PlanBreach[] {
  return solution.breaches.map(({ rule, side, byDays }) => {
    const own = problem.book.rules.find(
      (one) => one.name === rule && (side === 'lo' ? one.costLo : one.costHi),
    );
    const target = side === 'lo' ? OUT_OF_STEP_EARLY : OUT_OF_STEP_LATE;
    const cost = (side === 'lo' ? own?.costLo : own?.costHi) ?? target;
    return { rule, side, byDays, cost };
  });
}
