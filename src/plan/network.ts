/** The planner's input: points in whole days and gaps between them. It knows nothing about rice. */
import type { Day } from './day.ts';

/** Index of a point. Point 0 is the origin, day 0. */
export type Point = number;

export const ORIGIN: Point = 0;

/** A `must` cannot be broken; a `should` may be, at a stated cost. */
export type Strength = 'must' | 'should';

/** `lo <= to - from <= hi` in whole days; null means no bound on that side. */
export interface Gap {
  readonly from: Point;
  readonly to: Point;
  readonly lo: number | null;
  readonly hi: number | null;
  readonly strength: Strength;
  /** Name of the rule that this gap stands for. Several gaps may share one rule. */
  readonly rule: string;
  /** What breaking each side of a `should` costs, on one common scale: the cheapest is broken first. */
  readonly costLo?: number;
  readonly costHi?: number;
  /** Among `must`s that cannot all hold, the lowest rank is dropped first; without a rank, last. */
  readonly dropRank?: number;
  /** For a `must` with another way out: it is dropped rather than breach a `should` whose cost is above this. */
  readonly yieldsAt?: number;
}

/** The preferred distance of a point from an earlier-chosen one: picks the day inside the window. */
export interface Aim {
  readonly point: Point;
  readonly from: Point;
  readonly days: number;
  /** Where the distance hangs on the calendar: the preferred day itself, from the day of `from`. */
  readonly dayAfter?: (from: Day) => Day;
}

/** The day that an aim prefers, from the day of the point that it is measured from. */
export const wished = ({ days, dayAfter }: Aim, from: Day): Day => (dayAfter ? dayAfter(from) : from + days);

/** Whether a point may fall on a day; a day on which it may not is chosen only where its window has no other. */
export type Fits = (point: Point, day: Day) => boolean;

export interface Network {
  /** Number of points, the origin included. */
  readonly points: number;
  readonly gaps: readonly Gap[];
}

/** Earliest and latest day of one point, and the rules that set each bound, nearest rule first. */
export interface Window {
  readonly earliest: Day | null;
  readonly latest: Day | null;
  readonly earliestBecause: readonly string[];
  readonly latestBecause: readonly string[];
}

/** A `should` that had to give way: by how many days on which side of which gap, and no day more than needed. */
export interface Breach {
  /** Index in the gaps of the network that was solved. */
  readonly gap: number;
  readonly rule: string;
  readonly side: 'lo' | 'hi';
  readonly byDays: number;
  /** The stated cost of that side; Infinity where none was stated. */
  readonly cost: number;
}

/** Rules that cannot all hold: infeasible together, feasible once any one is taken out. */
export interface Conflict {
  /** The rule that gives way comes first, then the others round the cycle. */
  readonly rules: readonly string[];
  /** Days missing on the cycle of these rules that is shortest of days. */
  readonly shortDays: number;
}

export interface Solution {
  /** One window per point, under the network after breaches. */
  readonly windows: readonly Window[];
  /** What each breach settles: the rules that clash when that breach alone is undone. */
  readonly settled: readonly Conflict[];
  /** The rules that clash when one dropped `must` is put back among the others and the `should`s it yields to. */
  readonly blocked: readonly Conflict[];
  readonly breaches: readonly Breach[];
  /** The gaps as they now stand: relaxed by the breaches, and without the `must`s dropped to go on. */
  readonly gaps: readonly Gap[];
}
