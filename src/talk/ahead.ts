/** Which steps ahead are worth telling: the next of the line of work at hand, what follows it, and the other line's next. */
import type { PlanStep, PlotPlan } from '../agronomy/plot-plan.ts';
import type { Activity } from '../agronomy/season.ts';

/** The other line of work is told when its step is due within this many days. */
const ALSO_WITHIN_DAYS = 10;

/** What rides along is told when the step is near. */
const RIDER_WITHIN_DAYS = 3;

/** A step told beside the next one; a pressing one is never left out. */
export type Aside = PlanStep & { readonly pressing: boolean };

export interface Ahead {
  /** Work that was begun and not finished. */
  readonly going: PlanStep | null;
  readonly step: PlanStep | null;
  readonly following: Aside | null;
  readonly also: Aside | null;
  /** Work that rides along with the next step, such as manure before the puddling. */
  readonly rider: PlanStep | null;
}

const NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];
const inNursery = ({ activity }: { readonly activity: Activity }) => NURSERY.includes(activity);

/** Steps ahead of a plot; `after` is the activity just reported, whose own line comes first. */
export function ahead(plan: PlotPlan, after?: Activity): Ahead {
  const open = openSteps(plan);
  // Soaked seed that waited too long: the question about it says what to do, not the plan.
  const spoilt = plan.remedies.some(({ kind }) => kind === 'soak-again');
  const nursery = spoilt ? [] : open.filter(inNursery);
  const field = open.filter((step) => !inNursery(step));
  const first =
    after === undefined
      ? startsWithNursery(nursery, field)
      : inNursery({ activity: after }) && nursery.length > 0;
  const [own, other] = first ? [nursery, field] : [field, nursery];
  const [step, second] = own.length > 0 ? own : other;
  const also = own.length > 0 ? other[0] : undefined;
  const near = also?.due != null && also.due <= plan.today + ALSO_WITHIN_DAYS;
  const together = step?.due != null && second?.due != null && second.due - step.due <= 1;
  return {
    going: plan.steps.find(({ status }) => status === 'started') ?? null,
    step: step ?? null,
    following:
      second && (together || !near) ? { ...second, pressing: together && second.activity === 'flood' } : null,
    also: also && near ? { ...also, pressing: true } : null,
    rider: step && (step.due ?? 0) <= plan.today + RIDER_WITHIN_DAYS ? riderOf(plan, step) : null,
  };
}

/** An optional step that is due with the given one, or a day after. */
function riderOf(plan: PlotPlan, step: PlanStep): PlanStep | null {
  const riders = plan.steps.filter(
    ({ optional, status, due }) => optional && status === 'open' && due !== null,
  );
  return riders.find(({ due }) => step.due !== null && Math.abs((due ?? 0) - step.due) <= 1) ?? null;
}

function startsWithNursery(nursery: readonly PlanStep[], field: readonly PlanStep[]): boolean {
  const [seed, work] = [nursery[0]?.due, field[0]?.due];
  return seed != null && (work == null || seed < work);
}

/** Steps still to do, soonest first; ties in the order of the field. */
function openSteps(plan: PlotPlan): PlanStep[] {
  return plan.steps
    .filter(
      ({ status, optional, due }) => (status === 'open' || status === 'next') && !optional && due !== null,
    )
    .sort((a, b) => (a.due ?? 0) - (b.due ?? 0));
}
