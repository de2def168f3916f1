/** What a played season has left in the database: every plot, and every report that stands. */
import type { Db } from '../store/open.ts';

/** A report in force. */
export interface EndReport {
  /** The plot's label, or its owner's name and its number. */
  readonly plot: string;
  readonly activity: string;
  readonly stage: string;
  /** "2027-03-10"; null when the day is not known. */
  readonly on: string | null;
  /** JSON. */
  readonly measures: string;
}

export interface SeasonEnd {
  readonly plots: readonly string[];
  readonly reports: readonly EndReport[];
}

/** Reads them, in the order of the plots' names and of the texts. */
export async function seasonEnd(db: Db): Promise<SeasonEnd> {
  const plots = await db
    .selectFrom('plots')
    .innerJoin('people', 'people.id', 'plots.owner_id')
    .select(['plots.id', 'plots.label', 'plots.number', 'people.name'])
    .execute();
  const named = new Map(plots.map(({ id, label, number, name }) => [id, label ?? `${name} ${number}`]));
  const reports = await db
    .selectFrom('reports')
    .innerJoin('seasons', 'seasons.id', 'reports.season_id')
    .leftJoin('undos', 'undos.report_id', 'reports.id')
    .where('undos.report_id', 'is', null)
    .select(['seasons.plot_id', 'activity', 'stage', 'done_on', 'measures'])
    .orderBy('reports.said_ms')
    .orderBy('reports.id')
    .execute();
  return {
    plots: [...named.values()].sort(),
    reports: reports
      .map(({ plot_id, activity, stage, done_on, measures }) => ({
        ...{ plot: named.get(plot_id) ?? '', activity, stage, on: done_on, measures },
      }))
      .sort((a, b) => (a.plot < b.plot ? -1 : a.plot > b.plot ? 1 : 0)),
  };
}
