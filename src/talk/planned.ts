/** Plans of the phone's plots as conversation needs them: with the reports just made, and the reminders that follow. */
import { planPlot } from '../agronomy/plan-plot.ts';
import { type PlotPlan, stepFor } from '../agronomy/plot-plan.ts';
import {
  type Activity,
  changedSeason,
  type Rain,
  type Report,
  type Season,
  type SeasonReset,
} from '../agronomy/season.ts';
import type { Effect } from './effect.ts';
import { remindersFor } from './reminders-for.ts';
import type { NewRain, NewReport, PlotWorld, World } from './world.ts';

export interface Planned {
  readonly plot: PlotWorld;
  readonly season: Season;
  readonly plan: PlotPlan;
}

/** What a text changes in the seasons before they are planned again. */
export interface Changes {
  readonly added?: readonly NewReport[];
  readonly rain?: readonly NewRain[];
  /** Ids of reports and rains. */
  readonly takenBack?: readonly string[];
  readonly season?: SeasonReset;
}

/** Plans a plot with the changes that this text makes. */
export function planned(world: World, plot: PlotWorld, changes: Changes = {}): Planned {
  const { added = [], rain = [], takenBack = [], season: change = {} } = changes;
  const kept: readonly Report[] = plot.season.reports.filter(({ id }) => !takenBack.includes(id));
  const reports = [...kept, ...added.filter(({ seasonId }) => seasonId === plot.seasonId)];
  const season: Season = {
    ...changedSeason<Season>(plot.season, change),
    reports,
    ...rainsOf(plot, rain, takenBack),
  };
  return { plot, season, plan: planPlot(season, world.rulebook, world.today) };
}

function rainsOf(
  { season, seasonId }: PlotWorld,
  added: readonly NewRain[],
  takenBack: readonly string[],
): Pick<Season, 'rains'> {
  const kept = (season.rains ?? []).filter(({ id }) => !takenBack.includes(id));
  const rains: readonly Rain[] = [...kept, ...added.filter((one) => one.seasonId === seasonId)];
  return { rains };
}

/** Rewrites reminders on a day on which nothing was heard: steps stay overdue since the day that the last report made them due. */
export function remindAgain(world: World, plans: readonly Planned[]): readonly Effect[] {
  return plans.map(({ plot, season, plan }) => {
    const days = season.reports.map(({ on }) => on).filter((on) => on !== null);
    const asOf = days.length > 0 ? Math.max(...days) : world.today;
    const then = planPlot(season, world.rulebook, asOf);
    const firstDue = (activity: Activity) => stepFor(then, activity)?.due ?? null;
    return {
      do: 'remind',
      seasonId: plot.seasonId,
      reminders: remindersFor(plan, plot.seasonId, world.rulebook, season, firstDue),
    };
  });
}

/** Rewrites the reminders of these plots from their plans. */
export function remindEffects(world: World, plans: readonly Planned[]): readonly Effect[] {
  return plans.map(({ plot, season, plan }) => ({
    do: 'remind',
    seasonId: plot.seasonId,
    reminders: remindersFor(plan, plot.seasonId, world.rulebook, season),
  }));
}
