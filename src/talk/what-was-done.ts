/** "Plot 3 done": the plot is known and the work is not. The likeliest steps are put as a numbered question. */
import type { PlanStep } from '../agronomy/plot-plan.ts';
import type { Unclear } from '../hear/reading.ts';
import { ahead } from './ahead.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { activityName, inside } from './phrases.ts';
import { planned } from './planned.ts';
import { findPlots } from './plots.ts';
import type { Part } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** Steps that one question offers. */
const MOST_STEPS = 3;

/** Asks which step was done today on the one plot that was named; null for any other text. */
export function whatWasDone(world: World, { why, choices }: Unclear): Part | null {
  const said = choices.flatMap((reading) => ('plots' in reading && reading.plots ? reading.plots : []));
  const found = findPlots(world, said);
  const plot = found.kind === 'plots' && found.plots.length === 1 ? found.plots[0] : undefined;
  if (why !== 'which-activity' || !plot) return null;
  const { going, step, following, also } = ahead(planned(world, plot).plan);
  const steps = [going, step, also, following].filter((one) => one !== null).slice(0, MOST_STEPS);
  if (steps.length === 0) return null;
  const head = { key: 'ask.what-was-done', values: { inside: inside([plot]) } };
  const options = steps.map((one) => doneToday(world, plot, one));
  const topic = { plotId: plot.id, activity: null };
  return { ...numbered([head], [...options, leave('choice.nothing')]), topic };
}

function doneToday(world: World, plot: PlotWorld, { activity }: PlanStep): Option {
  const report = {
    seasonId: plot.seasonId,
    activity,
    stage: 'finished',
    on: world.today,
    measures: {},
  } as const;
  const what = {
    key: 'choice.finished',
    values: { activity: activityName(activity), day: { day: world.today } },
  };
  return { what, leads: { do: 'record', reports: [report] } };
}
