/** The days on which water may come to a plot so that all its rules are kept: what the choice of a block's flood date asks of each. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import { type PlotPlan, stepFor } from '../../agronomy/plot-plan.ts';
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { Season } from '../../agronomy/season.ts';
import type { Day } from '../../plan/day.ts';
import type { FloodDays } from './flood-date.ts';

/**
 * The window of the plot's flooding in a plan with water on every day, whatever turn it was told; water to soak it before
 * ploughing is another matter. A plot that is flooded, or that needs no flooding, waits for nothing: any day will do. Null days where the plan breaks rules whatever the water does.
 */
export function floodDays(plotId: string, season: Season, book: Rulebook, today: Day): FloodDays {
  const plot = { plotId, areaHa: season.areaHa };
  const { waterTurn: _, ...free } = season;
  const plan = planPlot({ ...free, blockWater: { from: null, to: null } }, book, today);
  const flood = stepFor(plan, 'flood');
  if (!flood || flood.status === 'done' || flood.status === 'started')
    return { ...plot, days: { from: null, to: null } };
  if (breaksRules(plan)) return { ...plot, days: null };
  return { ...plot, days: { from: flood.earliest, to: flood.latest } };
}

const breaksRules = ({ breaches, conflicts }: PlotPlan) => breaches.length > 0 || conflicts.length > 0;
