/** Writes a scheme's plots and opens the season of each. */
import { changedFields } from './filed-fields.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { PlotSeed, SchemeSeed } from './scheme-seed.ts';
import { storedId } from './stored-id.ts';
import type { PlotsTable, SeasonsTable } from './tables.ts';

const putPlot = readyQuery((db, row: PlotsTable) =>
  db
    .insertInto('plots')
    .values({
      id: row.id,
      scheme_id: row.scheme_id,
      number: row.number,
      label: row.label,
      owner_id: row.owner_id,
      block_id: row.block_id,
      area_ha: row.area_ha,
      place: row.place,
    })
    .onConflict((on) =>
      on.column('id').doUpdateSet((eb) => ({
        number: eb.ref('excluded.number'),
        label: eb.ref('excluded.label'),
        owner_id: eb.ref('excluded.owner_id'),
        block_id: eb.ref('excluded.block_id'),
        area_ha: eb.ref('excluded.area_ha'),
        place: eb.ref('excluded.place'),
      })),
    ),
);

const insertSeason = readyQuery((db, row: SeasonsTable) =>
  db.insertInto('seasons').values({
    id: row.id,
    plot_id: row.plot_id,
    open: row.open,
    way: row.way,
    variety_days: row.variety_days,
    choices: row.choices,
    teams: row.teams,
    basal_advised: row.basal_advised,
    filed: row.filed,
  }),
);

/** Adds new plots with an open season; updates plots, and those fields of open seasons that the file changed. */
export async function plantPlots(db: Executor, seed: SchemeSeed): Promise<void> {
  const seasons = await filedSeasons(db, seed.id);
  for (const [index, plot] of seed.plots.entries()) {
    const id = storedId(seed.id, plot.id);
    await putPlot(db, {
      id,
      scheme_id: seed.id,
      number: plot.number,
      label: plot.label ?? null,
      owner_id: storedId(seed.id, plot.ownerId),
      block_id: storedId(seed.id, plot.blockId),
      area_ha: plot.areaHa,
      place: index + 1,
    });
    const filed = seasonFields(plot);
    const season = seasons.get(id);
    if (season === undefined) await openSeason(db, id, filed);
    else await updateSeason(db, season.id, changedFields(season.filed, filed), filed);
  }
}

/** A season's columns as the file gives them. */
function seasonFields(plot: PlotSeed) {
  return {
    way: JSON.stringify(plot.way),
    variety_days: plot.varietyDays,
    teams: plot.teams === undefined ? null : JSON.stringify(plot.teams),
    basal_advised: plot.basalAdvised === undefined ? null : plot.basalAdvised ? (1 as const) : (0 as const),
  };
}

type SeasonFields = ReturnType<typeof seasonFields>;

async function filedSeasons(db: Executor, schemeId: string) {
  const rows = await db
    .selectFrom('seasons')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .select(['seasons.id', 'seasons.plot_id', 'seasons.filed'])
    .where('plots.scheme_id', '=', schemeId)
    .execute();
  return new Map(rows.map((row) => [row.plot_id, row]));
}

async function openSeason(db: Executor, plotId: string, fields: SeasonFields): Promise<void> {
  const filed = JSON.stringify(fields);
  await insertSeason(db, { id: `${plotId}/1`, plot_id: plotId, open: 1, choices: '{}', filed, ...fields });
}

async function updateSeason(
  db: Executor,
  id: string,
  changed: Partial<SeasonFields>,
  fields: SeasonFields,
): Promise<void> {
  await db
    .updateTable('seasons')
    .set({ ...changed, filed: JSON.stringify(fields) })
    .where('id', '=', id)
    .where('open', '=', 1)
    .execute();
}
