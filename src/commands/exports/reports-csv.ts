/** The table of all that was reported, also what was taken back. */
import type { Measures } from '../../agronomy/season.ts';
import { localIso } from '../../store/local-time.ts';
import type { Executor } from '../../store/ready-query.ts';
import { type Chosen, plotName } from './chosen.ts';
import { csvText } from './csv-text.ts';

const COLUMNS = ['plot', 'activity', 'stage', 'on', 'depth_cm', 'rain_mm', 'texted_at', 'taken_back'];

/** One row a report or rain, in the order in which they were texted; instants by the scheme's clock. */
export async function reportsCsv(db: Executor, { scheme, blocks }: Chosen): Promise<string> {
  const rows = await db
    .selectFrom('reports')
    .innerJoin('seasons', 'seasons.id', 'reports.season_id')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .innerJoin('people', 'people.id', 'plots.owner_id')
    .leftJoin('undos', 'undos.report_id', 'reports.id')
    .select(['plots.label', 'plots.number', 'plots.block_id', 'people.name', 'undos.report_id'])
    .select(['reports.activity', 'reports.stage', 'reports.done_on', 'reports.measures', 'reports.said_ms'])
    .where('plots.scheme_id', '=', scheme.world.id)
    .orderBy('reports.said_ms')
    .orderBy('reports.turn')
    .orderBy('reports.id')
    .execute();
  const ids = new Set(blocks.map(({ id }) => id));
  const fields = rows
    .filter(({ block_id }) => ids.has(block_id))
    .map((row) => {
      const { depthCm, mm } = JSON.parse(row.measures) as Measures & { readonly mm?: number };
      return [
        ...[plotName(row.label, row.name, row.number), row.activity, row.stage, row.done_on],
        ...[depthCm ?? null, mm ?? null, localIso(row.said_ms, scheme.timeZone)],
        row.report_id === null ? 'no' : 'yes',
      ];
    });
  return csvText(COLUMNS, fields);
}
