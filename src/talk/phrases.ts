/** Small messages that larger ones are made of: which plots, what was done, what to do, on which day. */
import type { PlanStep, PlotPlan } from '../agronomy/plot-plan.ts';
import { stepFor } from '../agronomy/plot-plan.ts';
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Activity, Way } from '../agronomy/season.ts';
import { extraSeedlings } from '../agronomy/variety.ts';
import type { Day } from '../plan/day.ts';
import type { Message } from '../say/message.ts';
import { numbersFor } from './numbers.ts';
import { comesBefore } from './order.ts';
import type { PlotWorld, World } from './world.ts';

const numbers = (plots: readonly PlotWorld[]) => ({
  count: plots.length,
  plots: { list: plots.map(({ number }) => number) },
});

/** "Plot 3", "Plots 1 and 2": at the head of a sentence. */
export function which(plots: readonly PlotWorld[]): Message {
  return { key: 'plot.name', values: numbers(plots) };
}

/** "plot 3", inside a sentence. */
export function inside(plots: readonly PlotWorld[]): Message {
  return { key: 'plot.inside', values: numbers(plots) };
}

/** "Plot 3 ploughed". */
export function doneWords(activity: Activity, plots: readonly PlotWorld[]): Message {
  const withNursery =
    activity === 'pregerminate' ||
    activity === 'sow-nursery' ||
    activity === 'gap-fill' ||
    activity === 'basal';
  return {
    key: `done.${activity}`,
    values: withNursery ? { inside: inside(plots) } : { which: which(plots) },
  };
}

/** "Plot 3 ploughed Tue 9 Mar." or "… day not known." Under the given heads, `echo` by default. */
export function doneSentence(
  activity: Activity,
  plots: readonly PlotWorld[],
  on: Day | null,
  known = 'echo.day',
  unknown = 'echo.unknown',
): Message {
  const done = doneWords(activity, plots);
  return on === null
    ? { key: unknown, values: { done } }
    : { key: known, values: { done, day: { day: on } } };
}

/** "ploughing". */
export function activityName(activity: Activity): Message {
  return { key: `activity.${activity}` };
}

/** The word to text when a step is done, "PLOUGHED". */
export function wordFor(activity: Activity): Message {
  return { key: `word.${activity}` };
}

/** Work that needs no canal where there is none: the rain is held. */
const HELD_RAIN: readonly Activity[] = ['soak', 'flood'];

/** "plough 10-15 cm deep": the step as an order, with its figure. */
export function doWords(book: Rulebook, activity: Activity, { water }: Pick<Way, 'water'>): Message {
  if (water === 'rain-fed' && HELD_RAIN.includes(activity)) return { key: `do.${activity}-rain` };
  const values = numbersFor(book, `do.${activity}`);
  return { key: `do.${activity}`, ...(Object.keys(values).length > 0 && { values }) };
}

/** Work that is best done at once, up to a day; the rest has its day. */
const BY: readonly Activity[] = ['clear', 'rough-level', 'flood', 'manure', 'weed'];

/** "today, Wed 10 Mar", "tomorrow, …", "by Fri 12 Mar", "on Wed 24 Mar". */
export function dueWords(activity: Activity, due: Day, today: Day): Message {
  const day = { day: due };
  if (due <= today) return { key: 'day.today', values: { day } };
  if (due === today + 1) return { key: 'day.tomorrow', values: { day } };
  if (activity === 'harvest') return { key: 'day.from', values: { day } };
  return { key: BY.includes(activity) ? 'day.by' : 'day.on', values: { day } };
}

/** The step that waits for rain of which nobody can say when it comes: this one, or one before it; null when none does. */
export function rainBefore({ rulebook }: World, plan: PlotPlan, step: PlanStep): PlanStep | null {
  const unknown = plan.steps.filter(({ waitsFor }) => waitsFor?.state === 'unknown');
  if (unknown.includes(step)) return step;
  return unknown.find(({ activity }) => comesBefore(rulebook, activity, step.activity)) ?? null;
}

/** Steps whose tip needs no figure. */
const PLAIN_TIPS: readonly Activity[] = ['clear', 'basal', 'sow-direct', 'gap-fill', 'topdress', 'harvest'];

/** One line of advice on how to do the step; null when there is none, or the plan lacks its figure. */
export function tipFor(world: World, { plan }: { readonly plan: PlotPlan }, step: PlanStep): Message | null {
  const key = `tip.${step.activity}`;
  const dueOf = (activity: Activity) => {
    const one = stepFor(plan, activity);
    return one && !rainBefore(world, plan, one) ? one.due : null;
  };
  switch (step.activity) {
    case 'flood': {
      const seeding = dueOf('sow-direct');
      // The water is let off the day before seed is sown on the mud.
      const till = dueOf('puddle') ?? dueOf('transplant') ?? (seeding === null ? null : seeding - 1);
      return till === null ? null : { key, values: { day: { day: till } } };
    }
    case 'sow-nursery': {
      const planting = dueOf('transplant');
      return planting === null
        ? null
        : { key, values: { day: dueWords('transplant', planting, world.today) } };
    }
    case 'transplant': {
      const sown = stepFor(plan, 'sow-nursery')?.on ?? null;
      if (sown === null || step.due === null) return null;
      const age = step.due - sown;
      const extra = extraSeedlings(world.rulebook, age, plan.crop.seedlingAge);
      return extra > 0 ? { key: 'conflict.old-planted', values: { age, extra } } : { key, values: { age } };
    }
    case 'level':
    case 'pregerminate':
      return { key, values: numbersFor(world.rulebook, key) };
    default:
      return PLAIN_TIPS.includes(step.activity) ? { key } : null;
  }
}

/** The scheme's officer, whom the line points to. */
export function officer(world: World): { readonly officer: string; readonly phone: string } {
  return { officer: world.scheme.officer.name, phone: world.scheme.officer.phone };
}
