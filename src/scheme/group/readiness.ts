/** How far each plot of a block is: what it does next, how late that is, and whom to call first. */
import { plantingStep } from '../../agronomy/frame.ts';
import { planPlot } from '../../agronomy/plan-plot.ts';
import { type PlanStep, type PlotPlan, stepFor } from '../../agronomy/plot-plan.ts';
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { Activity, Season } from '../../agronomy/season.ts';
import type { Day } from '../../plan/day.ts';

export interface PlotState {
  readonly plotId: string;
  readonly areaHa: number;
  /** What is done last, as far as it was reported or is taken as done; null before all work. */
  readonly last: Activity | null;
  /** What comes next, in the field as long as there is work in it; null when nothing does. */
  readonly next: Activity | null;
  /** The work that is most late, in the field or in the nursery; null when none is. */
  readonly lateAt: Activity | null;
  /** Days since it was first due; 0 when nothing is late. */
  readonly lateDays: number;
  /** The day on which the crop was, or is to be, planted or sown; null where no day is known. */
  readonly plantOn: Day | null;
}

/**
 * A plot's state today. A step is late since the day on which the newest report made it due; where nobody has reported
 * anything, since the day on which the plan of the first day (`since`) had it due.
 */
export function plotState(
  plotId: string,
  season: Season,
  book: Rulebook,
  today: Day,
  since: Day | null = null,
): PlotState {
  const plan = planPlot(season, book, today);
  const late = (step: PlanStep | null) => (step ? lateDays(season, book, today, step.activity, since) : 0);
  const [field, nursery] = [nextOf(plan, false), nextOf(plan, true)];
  const latest = late(nursery) > late(field) ? nursery : field;
  const planting = plan.steps[plantingStep(plan.steps)];
  return {
    plotId,
    areaHa: season.areaHa,
    last: plan.steps.findLast(({ status }) => status === 'done')?.activity ?? null,
    next: (field ?? nursery)?.activity ?? null,
    lateAt: late(latest) > 0 ? (latest?.activity ?? null) : null,
    lateDays: late(latest),
    plantOn: planting?.on ?? planting?.due ?? null,
  };
}

const IN_NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];

/** The next work in the field, or in the nursery beside it. */
function nextOf({ steps }: PlotPlan, inNursery: boolean): PlanStep | null {
  const open = steps.filter(
    ({ status, optional }) => (status === 'next' || status === 'open' || status === 'started') && !optional,
  );
  return open.find(({ activity }) => IN_NURSERY.includes(activity) === inNursery) ?? null;
}

function lateDays(season: Season, book: Rulebook, today: Day, activity: Activity, since: Day | null): number {
  const days = season.reports.flatMap(({ on }) => (on === null || on > today ? [] : [on]));
  if (since !== null) days.push(since);
  if (days.length === 0) return 0;
  const then: PlotPlan = planPlot(season, book, Math.max(...days));
  const due = stepFor(then, activity)?.due ?? null;
  return due === null ? 0 : Math.max(0, today - due);
}

export interface Readiness {
  /** How many plots have each step next, and their hectares; in the order of the season. */
  readonly byNext: readonly {
    readonly next: Activity | null;
    readonly plots: number;
    readonly areaHa: number;
  }[];
  /** Plots that are late, those first that hold the block back most: planted last, then the longest late. */
  readonly late: readonly PlotState[];
}

/** Sums up the plots of a block; `order` is that of the season's activities. */
export function readiness(states: readonly PlotState[], order: readonly Activity[]): Readiness {
  const place = (next: Activity | null) => (next === null ? order.length : order.indexOf(next));
  const nexts = [...new Set(states.map(({ next }) => next))];
  const byNext = nexts.map((next) => {
    const plots = states.filter((state) => state.next === next);
    return { next, plots: plots.length, areaHa: plots.reduce((sum, { areaHa }) => sum + areaHa, 0) };
  });
  const late = states.filter((state) => state.lateDays > 0);
  return {
    byNext: byNext.toSorted((a, b) => place(a.next) - place(b.next)),
    late: late.toSorted((a, b) => plantedAt(b) - plantedAt(a) || b.lateDays - a.lateDays),
  };
}

/** A plot of which no planting day is known holds the block back most of all. */
const plantedAt = ({ plantOn }: PlotState) => plantOn ?? Number.MAX_SAFE_INTEGER;
