/** What a simulated grower does on a day: the work that the plan asks for, as late as is their habit, and a text about it. */
import type { PlanStep } from '../agronomy/plot-plan.ts';
import type { Activity } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import { comesBefore } from '../talk/order.ts';
import { planned } from '../talk/planned.ts';
import type { PlotWorld, World } from '../talk/world.ts';
import type { Habits, SeasonTexts } from './season-file.ts';

/** When each step of each plot first fell due, and what has been texted: kept between days. */
export interface Memory {
  readonly firstDue: Map<string, Day>;
  readonly texted: Map<string, Day>;
}

/** The texts of one grower today, in the order of the field; plots of one kind of work share a text. */
export function textsOf(
  world: World,
  ownerId: string,
  habits: Habits,
  texts: SeasonTexts,
  memory: Memory,
): readonly string[] {
  const done = new Map<string, string[]>();
  for (const plot of world.plots.filter((one) => one.ownerId === ownerId)) {
    const { steps } = planned(world, plot).plan;
    for (const step of steps) {
      if (
        steps.some(
          ({ activity, status }) => status !== 'done' && comesBefore(world.rulebook, activity, step.activity),
        )
      )
        continue;
      const what = worked(world, plot, step, habits, memory);
      if (what !== null) done.set(what, [...(done.get(what) ?? []), plot.number]);
    }
  }
  return [...done].flatMap(([what, plots]) => textFor(what, plots, habits, texts) ?? []);
}

/** A text that came to nothing is tried again after this many days. */
const AGAIN_AFTER_DAYS = 4;
const STARTED = 'started ';

/** The activity finished (or begun) on this plot today; null when nothing is to be texted. */
function worked(
  world: World,
  plot: PlotWorld,
  step: PlanStep,
  habits: Habits,
  memory: Memory,
): string | null {
  if (step.status === 'done' || step.optional || step.due === null || step.due > world.today) return null;
  const key = `${plot.id} ${step.activity} ${step.round ?? ''}`;
  const begun = memory.firstDue.get(key) ?? world.today;
  memory.firstDue.set(key, begun);
  const workDays = step.doneBy === null ? 0 : step.doneBy - step.due;
  const startDay = begun + (habits.late[step.activity] ?? 0);
  if (habits.starts && workDays > 0 && world.today === startDay && step.status !== 'started')
    return STARTED + step.activity;
  const textDay = startDay + (step.status === 'started' ? 0 : workDays) + (habits.yesterday ? 1 : 0);
  const ready = step.status === 'started' ? step.due <= world.today : world.today >= textDay;
  const last = memory.texted.get(key);
  if (!ready || (last !== undefined && world.today - last < AGAIN_AFTER_DAYS)) return null;
  memory.texted.set(key, world.today);
  return step.activity;
}

/** Null when there are no words for it: the beginning of work that is seldom told. */
function textFor(what: string, plots: readonly string[], habits: Habits, texts: SeasonTexts): string | null {
  const list = [plots.slice(0, -1).join(', '), plots.at(-1)].filter(Boolean).join(texts.and[habits.says]);
  const begun = what.startsWith(STARTED);
  const words = begun
    ? texts.started[what.slice(STARTED.length) as Activity]
    : texts[habits.says][what as Activity];
  const said = words?.replace('{plots}', list) ?? null;
  return said === null || begun || !habits.yesterday ? said : texts.yesterday.replace('{said}', said);
}
