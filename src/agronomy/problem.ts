/** One plot's season as a planning problem on one day: what its parts are, and which of its points are past. */
import type { Day } from '../plan/day.ts';
import type { Point } from '../plan/network.ts';
import type { CropDays } from './crop-days.ts';
import type { Fact } from './facts.ts';
import { type Frame, type FramedRule, startOf, stepOf } from './frame.ts';
import type { RainWait } from './rain-gates.ts';
import type { Rulebook } from './rulebook.ts';
import type { Season } from './season.ts';

export interface Problem {
  readonly season: Season;
  readonly book: Rulebook;
  readonly today: Day;
  readonly frame: Frame;
  readonly facts: readonly Fact[];
  readonly crop: CropDays;
  /** Steps that wait for rain. */
  readonly rainWaits: readonly RainWait[];
}

/** Whether the day of a past point was told. */
export function isKnown(problem: Problem, point: Point): boolean {
  const { on, startedOn } = problem.facts[stepOf(point)] as Fact;
  return (on ?? startedOn) !== null;
}

/** Whether this point lies in the past for good: its step is done, or it is the start of one under way. */
export function isPast(problem: Problem, point: Point): boolean {
  const state = (problem.facts[stepOf(point)] as Fact).state;
  return state === 'done' || (state === 'started' && point === startOf(stepOf(point)));
}

/** The local harvest date, for a rule that counts back from it; null for every other rule, or while it is not known. */
export function localHarvest({ season }: Problem, { rule }: FramedRule): Day | null {
  const counts = rule.to.activity === 'harvest' && rule.when?.ripens?.includes('by-local-date');
  return counts && season.harvestOn !== undefined ? season.harvestOn : null;
}
