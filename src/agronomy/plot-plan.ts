/** The plan for one plot, as data: every step's days, what had to give way, what went wrong, and the ways out. */
import type { Day } from '../plan/day.ts';
import type { Conflict } from '../plan/network.ts';
import type { CropDays } from './crop-days.ts';
import type { RainWait } from './rain-gates.ts';
import type { Cost } from './rulebook.ts';
import type { Activity } from './season.ts';
import type { StandingWater } from './standing-water.ts';

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
  /** The rain that the step waits for; null when nothing is missing. */
  readonly waitsFor: RainWait | null;
}

/** A rule that has to give way, by so many days, at this cost. */
export interface PlanBreach {
  readonly rule: string;
  readonly side: 'lo' | 'hi';
  readonly byDays: number;
  readonly cost: Cost;
  /** The step still to come that is out of the rule's bounds, with its round. */
  readonly activity: Activity;
  readonly round: number | null;
}

/** A rule that facts have already broken: by days, or by centimetres. Negative cm: too little. */
export interface Lapse {
  readonly rule: string;
  readonly side: 'lo' | 'hi';
  readonly byDays?: number;
  readonly byCm?: number;
  readonly cost: Cost;
}

export type RemedyKind =
  | 'sow-afresh'
  | 'plant-older'
  | 'soak-again'
  | 'ask-water'
  /** The same work once more: plough, puddle or level again. */
  | 'do-again'
  | 'more-teams'
  /** Without ploughing. */
  | 'change-way'
  | 'tell-group'
  /** Nothing better: the step on its day, at the cost of the rule that is left. */
  | 'go-on';

/** A way out that the grower or the agent can choose, with its day. */
export interface Remedy {
  readonly kind: RemedyKind;
  /** The rule that it answers. */
  readonly rule: string;
  readonly on: Day;
  readonly cost: Cost;
  /** The planting day when this way is taken; null when the crop is planted. */
  readonly plantOn: Day | null;
  /** The work that is done again, shared by more teams, or gone on with. */
  readonly activity?: Activity;
  readonly teams?: number;
  /** Its days are not before tomorrow and hang on rain that has not come. */
  readonly afterRain?: true;
  /** Days that the seedlings will be old on planting (plant-older), and how many more to put in a hill. */
  readonly ageDays?: number;
  readonly extraSeedlings?: number;
}

/** What an uneven plot costs before it is planted. */
export interface Unevenness {
  /** Between the highest and the lowest spot, and what a level plot has at most. */
  readonly rangeCm: number;
  readonly maxCm: number;
  /** Days by which planting is later than on a level plot. */
  readonly daysLost: number;
  readonly plantOn: Day;
  /** Levelling again: on which day, and the planting day that it gives; null when waiting is quicker. */
  readonly again: { readonly on: Day; readonly plantOn: Day } | null;
}

export interface PlotPlan {
  readonly today: Day;
  readonly crop: CropDays;
  readonly steps: readonly PlanStep[];
  readonly breaches: readonly PlanBreach[];
  readonly lapses: readonly Lapse[];
  readonly conflicts: readonly Conflict[];
  readonly remedies: readonly Remedy[];
  /** An uneven plot that is still to be planted; null else. */
  readonly unevenness: Unevenness | null;
  /** Water behind the bunds of a rain-fed plot; null where a canal brings it, or nothing is known. */
  readonly water: StandingWater | null;
  /** The plot rests till this day after its harvest; null while the crop stands. */
  readonly fallowUntil: Day | null;
  /** The crop ripens by a local date that is not known yet. */
  readonly lacksHarvestDate: boolean;
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
