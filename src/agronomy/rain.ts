/** Rain as growers measure it: the running sum, when it was enough, when it may be, and whether the rains have begun. */
import type { Day } from '../plan/day.ts';
import { figure, type Rulebook } from './rulebook.ts';
import type { Rain, Season } from './season.ts';
import { monthAt } from './working-days.ts';

/** A forecast looks no further ahead than this. */
const LOOK_AHEAD_DAYS = 366;

export interface RainSum {
  /** mm counted so far. */
  readonly sumMm: number;
  /** The day on which the need was met; null when it is not yet. */
  readonly reachedOn: Day | null;
}

/** Rain of a season that counts: from the local start day of the rains on, up to today. */
export function countedRain({ rains = [], rainFrom }: Season, today: Day): readonly Rain[] {
  return standingRains(rains)
    .filter(({ on }) => on <= today && (rainFrom === undefined || on >= rainFrom))
    .sort((a, b) => a.on - b.on);
}

/** Rain that was not given another figure since. */
export function standingRains<T extends Rain>(rains: readonly T[]): readonly T[] {
  const corrected = new Set(rains.flatMap(({ corrects }) => (corrects === undefined ? [] : [corrects])));
  return rains.filter((rain) => !('id' in rain && corrected.has(String(rain.id))));
}

/** The running sum and the day on which it first came to `needMm`. Rain must be in the order of its days. */
export function rainSum(rains: readonly Rain[], needMm: number): RainSum {
  let sumMm = 0;
  let reachedOn: Day | null = null;
  for (const { on, mm } of rains) {
    sumMm += mm;
    if (reachedOn === null && sumMm >= needMm) reachedOn = on;
  }
  return { sumMm, reachedOn };
}

/**
 * The day on which the usual rain of the place, twelve monthly sums in mm from January, would bring what is missing:
 * each month's rain spread evenly over its days, from the day after `today`. Null when it would not within a year.
 */
export function expectedOn(missingMm: number, today: Day, monthlyMm: readonly number[]): Day | null {
  let left = missingMm;
  for (let from = today + 1; from <= today + LOOK_AHEAD_DAYS; ) {
    const { month, days, end } = monthAt(from);
    const mmPerDay = (monthlyMm[month] ?? 0) / days;
    const needed = mmPerDay === 0 ? Infinity : Math.max(1, Math.ceil(left / mmPerDay - 1e-9));
    if (from + needed - 1 <= Math.min(end, today + LOOK_AHEAD_DAYS)) return from + needed - 1;
    left -= mmPerDay * (end - from + 1);
    from = end + 1;
  }
  return null;
}

/** How the rains stand: not begun, begun but not yet trusted, a start that failed, or sure. */
export type RainState = 'none' | 'begun' | 'false-start' | 'sure';

/**
 * Whether the rains have begun: enough in one or two days, and no long dry spell in the days after (false start).
 * Days of which nothing was texted count as dry.
 */
export function rainState(book: Rulebook, rains: readonly Rain[], today: Day): RainState {
  const watchDays = figure(book, 'rainfall.watch');
  const wet = new Set(wetDays(book, rains));
  let failed = false;
  for (const start of startsOf(book, rains)) {
    const watchedTo = Math.min(today, start + watchDays);
    if (longestDry(wet, start, watchedTo) >= figure(book, 'rainfall.dry-spell')) failed = true;
    else return watchedTo < start + watchDays ? 'begun' : 'sure';
  }
  return failed ? 'false-start' : 'none';
}

/** Days on which one or two days' rain came to enough for a start. */
function startsOf(book: Rulebook, rains: readonly Rain[]): readonly Day[] {
  const enough = figure(book, 'rainfall.start');
  const fell = mmByDay(rains);
  return [...fell.keys()].filter((day) => (fell.get(day - 1) ?? 0) + (fell.get(day) ?? 0) >= enough);
}

/** The sum of each day of which rain was texted, in the order of the reports. */
export function mmByDay(rains: readonly Rain[]): ReadonlyMap<Day, number> {
  const fell = new Map<Day, number>();
  for (const { on, mm } of rains) fell.set(on, (fell.get(on) ?? 0) + mm);
  return fell;
}

function wetDays(book: Rulebook, rains: readonly Rain[]): readonly Day[] {
  const enough = figure(book, 'rainfall.wet-day');
  return rains.filter(({ mm }) => mm >= enough).map(({ on }) => on);
}

/** The longest run of dry days after `from`, up to and with `to`. */
function longestDry(wet: ReadonlySet<Day>, from: Day, to: Day): number {
  let [longest, run] = [0, 0];
  for (let day = from + 1; day <= to; day++) {
    run = wet.has(day) ? 0 : run + 1;
    longest = Math.max(longest, run);
  }
  return longest;
}

/** Days without rain up to and with today; null when no rain was texted at all. Rain must be in the order of its days. */
export function dryDays(book: Rulebook, rains: readonly Rain[], today: Day): number | null {
  const last = wetDays(book, rains).at(-1);
  return last === undefined ? null : today - last;
}
