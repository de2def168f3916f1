/** Keeps open work off the days on which nobody works: what the rules' windows do not tell, as bounds of its own. */
import type { Day } from '../plan/day.ts';
import { type Fits, type Gap, ORIGIN, type Point, type Solution } from '../plan/network.ts';
import type { Fact } from './facts.ts';
import { endOf, startOf, stepOf } from './frame.ts';
import type { Problem } from './problem.ts';
import type { RestDays } from './season.ts';
import { isWorkday, nearestWorkday, workEnd } from './working-days.ts';

/** The name of all bounds of rest. */
export const REST = 'rest-day';
/**
 * Rounds of bounds before starts are left where they fall: rules that gave way leave no play between steps, and then no
 * week may suit all of them. After the first rounds work only grows, so that it ends; it always has its working days.
 */
const ROUNDS_THAT_SHRINK = 20;
const ROUNDS_FOR_STARTS = 40;
const MOST_ROUNDS = 60;

/** Open work begins and ends on working days; undefined where every day is one. */
export function fitsCalendar(problem: Problem): Fits | undefined {
  const rest = problem.season.restDays;
  if (!rest) return undefined;
  return (point, day) => point === ORIGIN || !isOpen(problem, stepOf(point)) || isWorkday(rest, day);
}

/** Bounds that rest puts on a plan: those that hold in any case, and moves off the days that were chosen. */
export interface RestBounds {
  readonly firm: readonly Gap[];
  readonly moves: readonly Gap[];
}

export const NO_REST: RestBounds = { firm: [], moves: [] };

const isOpen = ({ facts }: Problem, step: number) => (facts[step] as Fact).state === 'open';

/** The bounds of rest with which to plan once more; null when every step is well placed. `round` counts from 0. */
export function restGaps(
  problem: Problem,
  { solution, days }: { readonly solution: Solution; readonly days: readonly Day[] },
  known: RestBounds,
  round: number,
): RestBounds | null {
  const rest = problem.season.restDays;
  if (!rest || round >= MOST_ROUNDS) return null;
  const open = problem.frame.steps.map((_, step) => step).filter((step) => isOpen(problem, step));
  const byDay = open.sort((a, b) => (days[startOf(a)] ?? 0) - (days[startOf(b)] ?? 0));
  const moved = round < ROUNDS_FOR_STARTS ? movedStarts(rest, { solution, days }, byDay, known) : null;
  if (moved) return moved;
  const spans = round < ROUNDS_FOR_STARTS ? known.firm : known.firm.filter(({ from }) => from !== ORIGIN);
  const mayShrink = round < ROUNDS_THAT_SHRINK;
  for (const step of byDay) {
    const firm = spanGaps(problem, days, step, { known: spans, mayShrink });
    if (firm) return { firm, moves: round < ROUNDS_FOR_STARTS ? known.moves : [] };
  }
  return spans.length < known.firm.length || (round >= ROUNDS_FOR_STARTS && known.moves.length > 0)
    ? { firm: spans, moves: [] }
    : null;
}

/** Every start that could be on a day of rest, or else the first that is. */
function movedStarts(
  rest: RestDays,
  { solution, days }: { readonly solution: Solution; readonly days: readonly Day[] },
  byDay: readonly number[],
  known: RestBounds,
): RestBounds | null {
  const starts = byDay.flatMap((step) => earliestGap(rest, solution, startOf(step)) ?? []);
  if (starts.length > 0) return { ...known, firm: [...known.firm, ...starts] };
  for (const step of byDay) {
    const start = startGap(rest, solution, days, startOf(step));
    if (start) return { ...known, moves: [...known.moves, start] };
  }
  return null;
}

/** Work that could begin on a day of rest begins on the next working day, where its window has one. */
function earliestGap(rest: RestDays, { windows }: Solution, start: Point): Gap | null {
  const { earliest = null, latest = null } = windows[start] ?? {};
  if (earliest === null || isWorkday(rest, earliest)) return null;
  const later = nearestWorkday(rest, earliest, 1);
  return later > earliest && (latest === null || later <= latest) ? startBound(start, later, null) : null;
}

/** A start on a day of rest moves to the next working day, or to the one before where it may not come later. */
function startGap(rest: RestDays, solution: Solution, days: readonly Day[], start: Point): Gap | null {
  const due = days[start];
  const window = solution.windows[start];
  if (due === undefined || !window || isWorkday(rest, due)) return null;
  const later = nearestWorkday(rest, due, 1);
  if (later > due && (window.latest === null || later <= window.latest))
    return startBound(start, later, null);
  const sooner = nearestWorkday(rest, due, -1);
  if (sooner < due && (window.earliest === null || sooner >= window.earliest))
    return startBound(start, null, sooner);
  return null;
}

/** Work takes its working days, and the days of rest between: a bound that follows its start. Null when it does. */
function spanGaps(
  problem: Problem,
  days: readonly Day[],
  step: number,
  { known, mayShrink }: { readonly known: readonly Gap[]; readonly mayShrink: boolean },
): readonly Gap[] | null {
  const [start, end] = [startOf(step), endOf(step)];
  const [from, to] = [days[start], days[end]];
  if (from === undefined || to === undefined) return null;
  const needed = workEnd(problem.season.restDays, from, problem.frame.days[step] ?? 1) - from;
  const own = known.find((gap) => gap.from === start && gap.to === end);
  const isTooLong = to - from > needed;
  if (to - from === needed || (isTooLong && !mayShrink)) return null;
  // A bound from an earlier round that has become too long is let go first; only other work is then held together.
  const isStale = own?.lo != null && own.lo > needed;
  const hi = isTooLong && !isStale ? needed : null;
  return [
    ...known.filter((gap) => gap !== own),
    { from: start, to: end, lo: needed, hi, strength: 'must', rule: REST },
  ];
}

/** Where a start lies gives way before any rule does. */
const startBound = (start: Point, lo: number | null, hi: number | null): Gap => ({
  from: ORIGIN,
  to: start,
  lo,
  hi,
  strength: 'should',
  rule: REST,
  costLo: 0,
  costHi: 0,
});
