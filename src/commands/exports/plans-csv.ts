/** The table of plans: every step of every open season. */
import { type Day, isoDay } from '../../plan/day.ts';
import { csvText } from './csv-text.ts';
import type { PlannedPlot } from './planned-plots.ts';

const COLUMNS = ['plot', 'activity', 'round', 'status', 'on', 'earliest', 'due', 'latest'];

/** One row a step, in the order of the season. */
export function plansCsv(plots: readonly PlannedPlot[]): string {
  const rows = plots.flatMap(({ name, plan }) =>
    plan.steps.map(({ activity, round, status, on, earliest, due, latest }) => [
      ...[name, activity, round, status],
      ...[on, earliest, due, latest].map(iso),
    ]),
  );
  return csvText(COLUMNS, rows);
}

const iso = (day: Day | null) => (day === null ? null : isoDay(day));
