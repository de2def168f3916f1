/** What would bring a plot in that a flood day leaves out: tried by planning again with it. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import { nextStep, type PlotPlan } from '../../agronomy/plot-plan.ts';
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { Activity, Season } from '../../agronomy/season.ts';
import { teamsFor, workDays } from '../../agronomy/work-days.ts';
import type { Day } from '../../plan/day.ts';
import { floodDays } from './flood-days.ts';

export type WayIn =
  /** So many teams at the work. */
  | { readonly kind: 'more-teams'; readonly activity: Activity; readonly teams: number }
  | { readonly kind: 'sow-afresh' }
  /** The block's planting dates keep it out. */
  | { readonly kind: 'other-dates' };

/** Teams that can be found for one plot. */
const MOST_TEAMS = 4;

/** The first of these that lets the plot be flooded on the day with all its rules kept; null when none of them does. */
export function wayIn(season: Season, book: Rulebook, today: Day, on: Day): WayIn | null {
  const fits = (other: Season) => isIn(floodDays('', other, book, today).days, on);
  for (const activity of ['plough', 'clear'] as const) {
    if (workDays(book, season, activity) < 2) continue;
    const usual = Math.ceil(teamsFor(book, season, activity));
    for (let teams = usual + 1; teams <= usual * MOST_TEAMS; teams += 1)
      if (fits({ ...season, teams: { ...season.teams, [activity]: teams } }))
        return { kind: 'more-teams', activity, teams };
  }
  if (fits({ ...season, nurseryGivenUpOn: today })) return { kind: 'sow-afresh' };
  if (fits({ ...season, target: { from: null, to: null } })) return { kind: 'other-dates' };
  return null;
}

const isIn = (days: { readonly from: Day | null; readonly to: Day | null } | null, on: Day) =>
  days !== null && (days.from === null || days.from <= on) && (days.to === null || on <= days.to);

/** What the plot has to do before it can be flooded; null when it is ready for the water. */
export function workBeforeFlood(season: Season, book: Rulebook, today: Day): Activity | null {
  const plan: PlotPlan = planPlot(season, book, today);
  const next = nextStep(plan)?.activity ?? null;
  return next === 'flood' ? null : next;
}
