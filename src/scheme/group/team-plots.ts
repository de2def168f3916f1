/** Which plots a shared team has still to serve, and when each can be, as their plans have it. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import { stepFor } from '../../agronomy/plot-plan.ts';
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { Season, Way } from '../../agronomy/season.ts';
import type { Day } from '../../plan/day.ts';
import type { SharedTeam } from '../group-section.ts';
import type { TeamPlot } from './team-order.ts';

/** A plot without a last day is served by this many days from now at the latest. */
const FAR_DAYS = 60;
/** Plots that are worked without a team of others. */
const BY_HAND: readonly Way['tillage'][] = ['hoe', 'none'];

/** The plots whose work is open: from the day on which it can be done to the last day that keeps their rules. */
export function teamPlots(
  plots: readonly { readonly id: string; readonly season: Season }[],
  { work, hoursPerHa }: Pick<SharedTeam, 'work' | 'hoursPerHa'>,
  book: Rulebook,
  today: Day,
): readonly TeamPlot[] {
  return plots.flatMap(({ id, season }) => {
    if (BY_HAND.includes(season.way.tillage)) return [];
    const { teamVisit: _, ...free } = season;
    const step = stepFor(planPlot(free, book, today), work);
    if (!step || step.status === 'done' || step.status === 'started' || step.due === null) return [];
    const releaseOn = step.earliest ?? step.due;
    const lastOn = Math.max(step.latest ?? today + FAR_DAYS, step.due);
    return [{ plotId: id, releaseOn, lastOn, hours: season.areaHa * hoursPerHa }];
  });
}
