/** What an uneven plot costs in days before planting, and whether levelling it again is quicker than waiting. */
import type { Day } from '../plan/day.ts';
import { rangeCm } from './crop-days.ts';
import { plantingStep } from './frame.ts';
import { type PlotPlan, stepFor, type Unevenness } from './plot-plan.ts';
import { figure, type Rulebook } from './rulebook.ts';
import type { Report, Season } from './season.ts';
import { doneAgain } from './with-remedy.ts';

/** Null for a plot that is level, not yet levelled, planted, or of which no depths are known. */
export function unevennessOf(
  season: Season,
  book: Rulebook,
  plan: PlotPlan,
  replan: (season: Season) => PlotPlan,
): Unevenness | null {
  const [range, max] = [rangeCm(season), figure(book, 'level-range.max')];
  const planting = plantingOf(plan);
  if (range === null || range <= max || planting === null) return null;
  const even = plantingOf(replan(withoutSpots(season)));
  const relevelled = replan(doneAgain(season, 'level'));
  const [on, sooner] = [stepFor(relevelled, 'level')?.due ?? null, plantingOf(relevelled)];
  const worth = on !== null && sooner !== null && sooner <= planting;
  return {
    rangeCm: range,
    maxCm: max,
    daysLost: Math.max(0, planting - (even ?? planting)),
    plantOn: planting,
    again: worth ? { on, plantOn: sooner } : null,
  };
}

/** The day on which the crop is to be planted; null when it is. */
function plantingOf({ steps }: PlotPlan): Day | null {
  const step = steps[plantingStep(steps)];
  return step && step.status !== 'done' ? step.due : null;
}

function withoutSpots(season: Season): Season {
  const even = (report: Report): Report => {
    const { spotsCm: _, ...measures } = report.measures ?? {};
    return report.activity === 'level' ? { ...report, measures } : report;
  };
  return { ...season, reports: season.reports.map(even) };
}
