/** What to say when it is not clear which plot is meant. */
import type { Reading } from '../hear/reading.ts';
import { ownPlots } from './own-plots.ts';
import { activityName, officer } from './phrases.ts';
import { type Part, saying } from './turn.ts';
import type { World } from './world.ts';

const plotList = (world: World) => ({ list: ownPlots(world).map(({ number }) => number) });

/** Asks for the plot of readings that named none; a plot's own number is the answer. */
export function whichPlot(world: World, readings: readonly Reading[]): Part {
  const first = readings[0];
  const plots = plotList(world);
  const question =
    first && 'activity' in first && first.activity
      ? { key: 'ask.which-plot', values: { activity: activityName(first.activity), plots } }
      : { key: 'ask.which-plot-ask', values: { plots } };
  return { say: [question], standing: { at: 'which-plot', readings } };
}

export function unknownPlot(world: World, said: string): Part {
  return saying('plots.unknown', { plot: said, plots: plotList(world) });
}

export function noPlots(world: World): Part {
  return saying('plots.none', officer(world));
}
