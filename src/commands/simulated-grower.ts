/** What a simulated grower does on a day: the work that the plan asks for, as late as is their habit, and a text about it. */
import type { PlanStep } from '../agronomy/plot-plan.ts';
import type { Activity } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import { comesBefore } from '../talk/order.ts';
import { planned } from '../talk/planned.ts';
import type { PlotWorld, World } from '../talk/world.ts';
import type { Habits, SeasonScript } from './season-file.ts';

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
  words: SeasonScript['words'],
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
  return [...done].map(([what, plots]) => wordsFor(what, plots, habits, words));
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

function wordsFor(
  what: string,
  plots: readonly string[],
  habits: Habits,
  words: SeasonScript['words'],
): string {
  const list = plots.length === 1 ? (plots[0] ?? '') : `${plots.slice(0, -1).join(', ')} and ${plots.at(-1)}`;
  if (what.startsWith(STARTED))
    return `started ${NOUN[what.slice(STARTED.length) as Activity] ?? ''} plot ${list}`;
  const said = (words[habits.says]?.[what as Activity] ?? '').replace('{plots}', list);
  return habits.yesterday ? `${said} yesterday` : said;
}

const NOUN: Partial<Record<Activity, string>> = {
  plough: 'ploughing',
  puddle: 'puddling',
  level: 'levelling',
  transplant: 'planting',
};
