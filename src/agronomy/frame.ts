/** The steps and rules that one season's way of growing has, with a number for every point. */
import type { Point } from '../plan/network.ts';
import type { PointName, Rule, Rulebook, Step, When } from './rulebook.ts';
import type { Season, Way } from './season.ts';

export interface Frame {
  readonly steps: readonly Step[];
  readonly rules: readonly FramedRule[];
  /** Points in the network: the origin and two for every step. */
  readonly points: number;
}

/** A rule whose two steps both belong to the way. `from` and `to` are points; the steps are indexes into `steps`. */
export interface FramedRule {
  readonly rule: Rule;
  readonly from: Point;
  readonly to: Point;
}

/** The point of a step's start; its end is the next one. Point 0 is the origin. */
export const startOf = (step: number): Point => 1 + 2 * step;
export const endOf = (step: number): Point => 2 + 2 * step;
/** The step that a point belongs to; points from 1. */
export const stepOf = (point: Point): number => (point - 1) >> 1;

/** Whether a rule or step with this condition belongs to the way. */
export function holds(when: When | undefined, way: Way): boolean {
  if (!when) return true;
  const allows = <K extends keyof Way>(key: K) => !when[key] || when[key].includes(way[key]);
  return allows('water') && allows('tillage') && allows('establishment') && allows('nursery');
}

/** Lays out the way's steps and rules; rules with an end in a step that is missing are left out. */
export function frameOf(
  book: Rulebook,
  season: Season,
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
    if (!holds(rule.when, season.way)) continue;
    const from = pointOf(steps, rule.from);
    const to = pointOf(steps, rule.to);
    if (from !== null && to !== null) rules.push({ rule, from, to });
  }
  return { steps, rules, points: 1 + 2 * steps.length };
}

/** The point with this name, null when the way lacks the step. */
export function pointOf(steps: readonly Step[], name: PointName): Point | null {
  const index = steps.findIndex(
    (step) => step.activity === name.activity && (step.round ?? 1) === (name.round ?? 1),
  );
  if (index < 0) return null;
  return name.at === 'start' ? startOf(index) : endOf(index);
}
