/** The season as it is once a way out is taken: what planning again with it means. */
import { standingReports } from './facts.ts';
import type { PlotPlan, Remedy } from './plot-plan.ts';
import type { Activity, Report, Season, SeasonChange } from './season.ts';

/** Seasons that are changed by taking the way out; for ways that only a later report or the agent can make true, a likeness. */
export function withRemedy(season: Season, remedy: Remedy, plan: Pick<PlotPlan, 'today'>): Season {
  const change = changeFor(season, remedy, plan);
  if (change) return { ...season, ...change };
  switch (remedy.kind) {
    case 'ask-water':
      return { ...season, blockWater: { from: null, to: null } };
    case 'do-again':
      return remedy.activity ? doneAgain(season, remedy.activity) : season;
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
    case 'soak-again':
      return { nurseryGivenUpOn: lastOn(season, NURSERY) ?? today };
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

const NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];

function lastOn(season: Season, activities: readonly Activity[]) {
  const days = standingReports(season).flatMap((report) =>
    activities.includes(report.activity) && report.on !== null ? [report.on] : [],
  );
  return days.length > 0 ? Math.max(...days) : null;
}

/** The work of the field that ploughing, puddling and levelling again lead through. */
const FIELD: readonly Activity[] = [
  'clear',
  'soak',
  'plough',
  'rough-level',
  'flood',
  'manure',
  'puddle',
  'basal',
  'level',
];
const OPTIONAL: readonly Activity[] = ['manure', 'basal'];

/**
 * The season as if this work, and what hangs on it, were still to do. What came before stays done, though nobody may have
 * said so; soil that was soaked for the first ploughing is not soaked again, so the day of that no longer counts.
 */
export function doneAgain(season: Season, activity: Activity): Season {
  const at = FIELD.indexOf(activity);
  const kept = season.reports
    .filter((report) => !FIELD.slice(at).includes(report.activity))
    .map((report) =>
      activity === 'plough' && report.activity === 'soak' ? { ...report, on: null } : report,
    );
  const told = standingReports({ ...season, reports: kept })
    .filter(({ stage }) => stage === 'finished')
    .map((report) => report.activity);
  const before = FIELD.slice(0, at).filter((one) => !OPTIONAL.includes(one) && !told.includes(one));
  const silent = before.map((one): Report => ({ activity: one, stage: 'finished', on: null }));
  return { ...season, reports: [...kept, ...silent] };
}
