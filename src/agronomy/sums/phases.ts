/** When a plot's crop forms its panicles, flowers, is drained and cut, and when birds come; from its plan. */
import type { Day } from '../../plan/day.ts';
import { factsOf } from '../facts.ts';
import { type PlotPlan, stepFor } from '../plot-plan.ts';
import { figure, type Rulebook } from '../rulebook.ts';
import type { Activity, Season } from '../season.ts';
import { boundDays } from '../variety.ts';
import { type Founded, founded } from './sum.ts';

export interface Phases {
  /** When the seed was sown, or is to be: in the nursery, or in the field; null when the day is not known. */
  readonly sownOn: Day | null;
  /** Panicle initiation. */
  readonly panicleOn: Day;
  readonly floweringOn: Day;
  /** As planned, or as reported; null when drained on a day not known. */
  readonly drainOn: Day | null;
  readonly harvestOn: Day;
  /** From the milk stage to the harvest; null for a crop that is cut before. */
  readonly birds: { readonly from: Day; readonly to: Day } | null;
}

export interface PhasesOf extends Founded {
  readonly phases: Phases | null;
  /** Why there are none: the local harvest date, or any day to count from, is not known. */
  readonly lacks: 'harvest-date' | 'sowing-day' | null;
}

/**
 * The phases of a season by its plan, both of the same day. A crop that ripens by its days is counted from its sowing, with
 * the days that transplanting costs; one that ripens by a local date is counted back from it. IRRI, three growth phases: a
 * variety of 110 days, not transplanted, forms panicles at 45 days and flowers at 80.
 */
export function phasesOf(season: Season, plan: PlotPlan, book: Rulebook): PhasesOf {
  const figures = ['panicle-before-maturity', 'flowering-before-maturity', 'milk-after-flowering'];
  const byDays = season.way.ripens === 'by-days';
  const shock = byDays && season.way.establishment === 'transplant' ? ['transplant-shock'] : [];
  const why = founded(book, [...figures, ...shock]);
  const sownOn = sowingDay(season, plan, book);
  const planned = dayOf(plan, 'harvest');
  const ripeOn = (byDays ? ripeByDays(season, book, sownOn) : (season.harvestOn ?? null)) ?? planned;
  if (ripeOn === null) return { phases: null, lacks: byDays ? 'sowing-day' : 'harvest-date', ...why };
  const floweringOn = ripeOn - figure(book, 'flowering-before-maturity');
  const harvestOn = planned ?? ripeOn;
  const milkOn = floweringOn + figure(book, 'milk-after-flowering');
  const phases: Phases = {
    sownOn,
    panicleOn: ripeOn - figure(book, 'panicle-before-maturity'),
    floweringOn,
    drainOn: dayOf(plan, 'drain'),
    harvestOn,
    birds: milkOn <= harvestOn ? { from: milkOn, to: harvestOn } : null,
  };
  return { phases, lacks: null, ...why };
}

function ripeByDays({ way, varietyDays }: Season, book: Rulebook, sownOn: Day | null): Day | null {
  const of = way.establishment === 'transplant' ? 'maturity' : 'variety';
  const days = boundDays(book, { of, plus: 0 }, varietyDays);
  return sownOn === null || days === null ? null : sownOn + days;
}

/** The day on which sowing began, as reported; else as planned; null for seed that was sown on a day not known. */
function sowingDay(season: Season, plan: PlotPlan, book: Rulebook): Day | null {
  const activity = season.way.establishment === 'transplant' ? 'sow-nursery' : 'sow-direct';
  const step = book.steps.findIndex((one) => one.activity === activity);
  const fact = factsOf(book, season, book.steps)[step];
  if (fact === undefined || fact.state === 'open') return dayOf(plan, activity);
  return fact.startedOn ?? fact.on;
}

/** The day on which a step was done or begun, or is due; null when the plan lacks it or its day is not known. */
function dayOf(plan: PlotPlan, activity: Activity): Day | null {
  const step = stepFor(plan, activity);
  return step === null ? null : (step.on ?? step.due);
}
