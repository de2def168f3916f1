/** The steps and rules that one season's way of growing has, with a number for every point. */
import type { Point } from '../plan/network.ts';
import type { CropDays } from './crop-days.ts';
import type { Bound, PointName, Rule, Rulebook, Step, When } from './rulebook.ts';
import type { Activity, Season, Way } from './season.ts';
import { boundDays } from './variety.ts';
import { workDays } from './work-days.ts';

export interface Frame {
  readonly steps: readonly Step[];
  readonly rules: readonly FramedRule[];
  /** Working days of each step. */
  readonly days: readonly number[];
  /** Points in the network: the origin and two for every step. */
  readonly points: number;
}

/** A rule whose two steps both belong to the way. `from` and `to` are points; the steps are indexes into `steps`. */
export interface FramedRule {
  readonly rule: Rule;
  /** Bounds and aim in days, for this season's variety. */
  readonly lo: number | null;
  readonly aim: number | null;
  readonly hi: number | null;
  readonly from: Point;
  readonly to: Point;
}

/** The point of a step's start; its end is the next one. Point 0 is the origin. */
export const startOf = (step: number): Point => 1 + 2 * step;
export const endOf = (step: number): Point => 2 + 2 * step;
/** The step that a point belongs to; points from 1. */
export const stepOf = (point: Point): number => (point - 1) >> 1;

/** The index of the step that plants the crop: from the nursery, or as seed; -1 when the way has none. */
export const plantingStep = (steps: readonly { readonly activity: Activity }[]): number =>
  steps.findIndex(({ activity }) => activity === 'transplant' || activity === 'sow-direct');

/** Whether a rule or step with this condition belongs to the way. */
export function holds(when: When | undefined, way: Way): boolean {
  if (!when) return true;
  const allows = <K extends keyof Way>(key: K) => !when[key] || when[key].includes(way[key]);
  return (
    allows('water') && allows('tillage') && allows('establishment') && allows('nursery') && allows('ripens')
  );
}

/** Lays out the way's steps and rules for a crop of these days; rules with an end in a step that is missing are left out. */
export function frameOf(
  book: Rulebook,
  season: Season,
  crop?: CropDays,
  leftOut: (step: Step) => boolean = () => false,
): Frame {
  const steps = book.steps.filter(
    (step) =>
      holds(step.when, season.way) &&
      (!step.onlyIfBasalAdvised || season.basalAdvised === true) &&
      !leftOut(step),
  );
  const rules: FramedRule[] = [];
  for (const rule of book.rules) {
    const from = holds(rule.when, season.way) ? pointOf(steps, rule.from) : null;
    const to = from === null ? null : pointOf(steps, rule.to);
    if (from !== null && to !== null) rules.push(framed(book, season, rule, { from, to, crop }));
  }
  const days = steps.map(({ activity }) => workDays(book, season, activity));
  return { steps, rules, days, points: 1 + 2 * steps.length };
}

function framed(
  book: Rulebook,
  season: Season,
  rule: Rule,
  { from, to, crop }: { readonly from: Point; readonly to: Point; readonly crop: CropDays | undefined },
): FramedRule {
  const bound = (one: Bound) => boundDays(book, one, season.varietyDays, crop);
  return { rule, from, to, lo: bound(rule.lo), aim: bound(rule.aim), hi: bound(rule.hi) };
}

/** The point with this name, null when the way lacks the step. */
export function pointOf(steps: readonly Step[], name: PointName): Point | null {
  const index = steps.findIndex(
    (step) => step.activity === name.activity && (step.round ?? 1) === (name.round ?? 1),
  );
  if (index < 0) return null;
  return name.at === 'start' ? startOf(index) : endOf(index);
}
