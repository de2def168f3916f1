/** Which plots a text is about: numbers and labels found among the phone's plots. */
import { bareLabel } from '../scheme/plot-label.ts';
import { ownPlots } from './own-plots.ts';
import type { PlotWorld, World } from './world.ts';

export type Found =
  | { readonly kind: 'plots'; readonly plots: readonly PlotWorld[] }
  /** The phone has no plot at all. */
  | { readonly kind: 'none' }
  | { readonly kind: 'unknown'; readonly said: string }
  /** Not said, and there are several. */
  | { readonly kind: 'which' };

/** Finds plots by number or label; "all" is every plot of who texts; not said is the only one, or a question. */
export function findPlots(world: World, said: readonly string[]): Found {
  if (world.plots.length === 0) return { kind: 'none' };
  const own = ownPlots(world);
  if (said.includes('all')) return { kind: 'plots', plots: own };
  if (said.length === 0) return own.length === 1 ? { kind: 'plots', plots: own } : { kind: 'which' };
  const plots: PlotWorld[] = [];
  for (const name of said) {
    const plot = findPlot(world, name);
    if (!plot) return { kind: 'unknown', said: name };
    if (!plots.includes(plot)) plots.push(plot);
  }
  return { kind: 'plots', plots };
}

function findPlot(world: World, name: string): PlotWorld | undefined {
  const wanted = bareLabel(name);
  return world.plots.find(
    ({ number, label }) => bareLabel(number) === wanted || (label !== null && bareLabel(label) === wanted),
  );
}
