/** The plan for one plot, as data: every step's days, what had to give way, what went wrong, and the ways out. */
import type { Day } from '../plan/day.ts';
import type { Conflict } from '../plan/network.ts';
import type { Cost } from './rulebook.ts';
import type { Activity } from './season.ts';

export interface PlanStep {
  readonly activity: Activity;
  /** 1, 2, … for work that comes more than once; null else. */
  readonly round: number | null;
  readonly status: 'done' | 'started' | 'next' | 'open';
  readonly optional: boolean;
  /** Done steps: the day, null when unknown. Steps under way: the day they began, null when unknown. */
  readonly on: Day | null;
  /** Done because a later step was; nobody said so. */
  readonly implied: boolean;
  /** Days on which the step starts; for a step under way, on which it ends. Null means no bound, or done. */
  readonly earliest: Day | null;
  readonly due: Day | null;
  readonly latest: Day | null;
  /** The end of a step that takes longer than a day, when started at `due`. */
  readonly doneBy: Day | null;
  /** Chains of rules that set the two bounds, nearest first. */
  readonly earliestBecause: readonly string[];
  readonly latestBecause: readonly string[];
}

/** A rule that has to give way, by so many days, at this cost. */
export interface PlanBreach {
  readonly rule: string;
  readonly side: 'lo' | 'hi';
  readonly byDays: number;
  readonly cost: Cost;
}

/** A rule that facts have already broken: by days, or by centimetres. Negative cm: too little. */
export interface Lapse {
  readonly rule: string;
  readonly side: 'lo' | 'hi';
  readonly byDays?: number;
  readonly byCm?: number;
  readonly cost: Cost;
}

export type RemedyKind = 'sow-afresh' | 'plant-older' | 'soak-again' | 'ask-water';

/** A way out that the grower or the agent can choose, with its day. */
export interface Remedy {
  readonly kind: RemedyKind;
  readonly on: Day;
  /** Days that the seedlings will be old on planting (plant-older), and how many more to put in a hill. */
  readonly ageDays?: number;
  readonly extraSeedlings?: number;
}

export interface PlotPlan {
  readonly today: Day;
  readonly steps: readonly PlanStep[];
  readonly breaches: readonly PlanBreach[];
  readonly lapses: readonly Lapse[];
  readonly conflicts: readonly Conflict[];
  readonly remedies: readonly Remedy[];
}

/** The next step, null when the season is over. */
export function nextStep(plan: PlotPlan): PlanStep | null {
  return plan.steps.find((step) => step.status === 'next') ?? null;
}

/** The first step with this activity, in the given round when one is named; null when the way lacks it. */
export function stepFor(plan: PlotPlan, activity: Activity, round?: number): PlanStep | null {
  return (
    plan.steps.find((step) => step.activity === activity && (round === undefined || step.round === round)) ??
    null
  );
}
