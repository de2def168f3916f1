/** The season as it is once a way out is taken: what planning again with it means. */
import { standingReports } from './facts.ts';
import type { PlotPlan, Remedy } from './plot-plan.ts';
import type { Activity, Season, SeasonChange } from './season.ts';

/** Seasons that are changed by taking the way out; for ways that only a later report or the agent can make true, a likeness. */
export function withRemedy(season: Season, remedy: Remedy, plan: Pick<PlotPlan, 'today'>): Season {
  const change = changeFor(season, remedy, plan);
  if (change) return { ...season, ...change };
  switch (remedy.kind) {
    case 'ask-water':
      return { ...season, blockWater: { from: null, to: null } };
    case 'do-again':
      return { ...season, reports: without(season, remedy.activity) };
    case 'more-teams':
      return remedy.activity
        ? { ...season, teams: { ...season.teams, [remedy.activity]: remedy.teams ?? 1 } }
        : season;
    case 'soak-again':
    case 'sow-afresh':
    case 'plant-older':
    case 'change-way':
    case 'tell-group':
    case 'go-on':
      return season;
  }
}

/** What is written down when the grower picks the way out; null where nothing is. */
export function changeFor(
  season: Season,
  remedy: Remedy,
  { today }: Pick<PlotPlan, 'today'>,
): SeasonChange | null {
  switch (remedy.kind) {
    case 'sow-afresh':
      return { nurseryGivenUpOn: lastOn(season, 'sow-nursery') ?? today };
    case 'soak-again':
      return { nurseryGivenUpOn: lastOn(season, 'pregerminate') ?? today };
    case 'plant-older':
      return { oldSeedlingsAccepted: true };
    case 'change-way':
      return { way: { ...season.way, tillage: 'none' } };
    case 'ask-water':
    case 'do-again':
    case 'more-teams':
    case 'tell-group':
    case 'go-on':
      return null;
  }
}

function lastOn(season: Season, activity: Activity) {
  const days = standingReports(season).flatMap((report) =>
    report.activity === activity && report.on !== null ? [report.on] : [],
  );
  return days.length > 0 ? Math.max(...days) : null;
}

/** Reports as if this work, and what hangs on it, were still to do. */
function without(season: Season, activity: Activity | undefined) {
  const order: readonly Activity[] = ['plough', 'rough-level', 'flood', 'manure', 'puddle', 'basal', 'level'];
  const from = order.indexOf(activity ?? 'level');
  return season.reports.filter((report) => !order.slice(from).includes(report.activity));
}
