/** Adds a plot that no scheme file names, with its open season. */
import type { NewPlot } from '../scheme/people-change.ts';
import type { MakeId } from './ids.ts';
import { insertPlot } from './insert-plot.ts';
import { placeAtEnd } from './plots.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { SeasonsTable } from './tables.ts';

/** A plot as it is opened; a plot of somebody who joined by text has no label. */
export type PlotToOpen = Omit<NewPlot, 'label'> & { readonly label: string | null };

const insertSeason = readyQuery((db, row: Pick<SeasonsTable, 'id' | 'plot_id' | 'way' | 'variety_days'>) =>
  db.insertInto('seasons').values({
    id: row.id,
    plot_id: row.plot_id,
    open: 1,
    way: row.way,
    variety_days: row.variety_days,
    choices: '{}',
    teams: null,
    basal_advised: null,
    filed: null,
  }),
);

/** Adds the plot, under new ids, at its place or at the end of its block's canal. Throws when its block is not there. */
export async function openPlot(
  db: Executor,
  schemeId: string,
  ownerId: string,
  plot: PlotToOpen,
  makeId: MakeId,
): Promise<void> {
  const [id, seasonId] = [makeId(), makeId()];
  await insertPlot(db, {
    id,
    scheme_id: schemeId,
    number: plot.number,
    label: plot.label,
    owner_id: ownerId,
    block_id: plot.blockId,
    area_ha: plot.areaHa,
    place: plot.place ?? (await placeAtEnd(db, plot.blockId)),
  });
  const way = JSON.stringify(plot.way);
  await insertSeason(db, { id: seasonId, plot_id: id, way, variety_days: plot.varietyDays });
}
