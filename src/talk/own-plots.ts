/** The plots of one who shares a phone. */
import type { PlotWorld, World } from './world.ts';

/** The plots of who texts; of everybody on the phone where that is not known. */
export function ownPlots({ speaker, people, plots }: World): readonly PlotWorld[] {
  if (!speaker || people.length < 2) return plots;
  const own = plots.filter(({ ownerId }) => ownerId === speaker.id);
  return own.length > 0 ? own : plots;
}
