/** Keeps open work off the days on which nobody works: one bound at a time, each inside the window that the rules leave. */
import type { Day } from '../plan/day.ts';
import { type Gap, ORIGIN, type Solution } from '../plan/network.ts';
import type { Fact } from './facts.ts';
import { endOf, startOf } from './frame.ts';
import type { Problem } from './problem.ts';
import type { RestDays } from './season.ts';
import { isWorkday, nearestWorkday, workEnd } from './working-days.ts';

const REST = 'rest-day';

/** The next bounds that move the first open step off days of rest; empty when every step is well placed. */
export function restGaps(problem: Problem, solution: Solution, days: readonly Day[]): readonly Gap[] {
  const rest = problem.season.restDays;
  if (!rest) return [];
  const open = problem.frame.steps
    .map((_, step) => step)
    .filter((step) => (problem.facts[step] as Fact).state === 'open');
  const byDay = open.sort((a, b) => (days[startOf(a)] ?? 0) - (days[startOf(b)] ?? 0));
  for (const step of byDay) {
    const gap =
      startGap(rest, solution, days, startOf(step)) ??
      spanGap(rest, problem.frame.days[step] ?? 1, days, step);
    if (gap) return [gap];
  }
  return [];
}

/** A start on a day of rest moves to the next working day, or to the one before where it may not come later. */
function startGap(rest: RestDays, solution: Solution, days: readonly Day[], start: number): Gap | null {
  const due = days[start];
  const window = solution.windows[start];
  if (due === undefined || !window || isWorkday(rest, due)) return null;
  const later = nearestWorkday(rest, due, 1);
  if (window.latest === null || later <= window.latest) return bound(ORIGIN, start, later, null);
  const sooner = nearestWorkday(rest, due, -1);
  if (window.earliest === null || sooner >= window.earliest) return bound(ORIGIN, start, null, sooner);
  return null;
}

/** Work that runs over days of rest ends that much later. */
function spanGap(rest: RestDays, workDays: number, days: readonly Day[], step: number): Gap | null {
  const [start, end] = [days[startOf(step)], days[endOf(step)]];
  if (start === undefined || end === undefined) return null;
  const needed = workEnd(rest, start, workDays) - start;
  return end - start < needed ? bound(startOf(step), endOf(step), needed, null) : null;
}

function bound(from: number, to: number, lo: number | null, hi: number | null): Gap {
  return { from, to, lo, hi, strength: 'must', rule: REST };
}
