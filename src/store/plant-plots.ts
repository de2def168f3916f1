/** Writes a scheme's plots and opens the season of each. */
import { changedFields } from './filed-fields.ts';
import { insertPlot } from './insert-plot.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { PlotSeed, SchemeSeed } from './scheme-seed.ts';
import { storedId } from './stored-id.ts';
import type { PlotsTable, SeasonsTable } from './tables.ts';

const insertSeason = readyQuery((db, row: Omit<SeasonsTable, 'planned_on'>) =>
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

/**
 * Adds new plots with an open season. Of a plot that is there, the fields that the file changed are updated: where it lies
 * and whose it is may have been changed by an agent, its way and variety by its grower. One that was removed stays so.
 */
export async function plantPlots(db: Executor, seed: SchemeSeed): Promise<void> {
  const known = await knownPlots(db, seed.id);
  for (const [index, plot] of seed.plots.entries()) {
    const id = storedId(seed.id, plot.id);
    const filed = filedOf(seed.id, plot, index + 1);
    const before = known.get(id);
    if (before === undefined) await addPlot(db, seed.id, id, filed);
    else if (before.open === 1) await updatePlot(db, id, before, filed);
  }
}

/** The columns of a plot and of its season as the file gives them. */
function filedOf(schemeId: string, plot: PlotSeed, place: number) {
  return {
    number: plot.number,
    label: plot.label ?? null,
    owner_id: storedId(schemeId, plot.ownerId),
    block_id: storedId(schemeId, plot.blockId),
    area_ha: plot.areaHa,
    place,
    way: JSON.stringify(plot.way),
    variety_days: plot.varietyDays,
    teams: plot.teams === undefined ? null : JSON.stringify(plot.teams),
    basal_advised: plot.basalAdvised === undefined ? null : plot.basalAdvised ? (1 as const) : (0 as const),
  };
}

type Filed = ReturnType<typeof filedOf>;

interface KnownPlot extends Pick<PlotsTable, 'owner_id' | 'block_id'> {
  readonly season_id: string;
  readonly open: number;
  /** Kept with the season: JSON of what the file last said of the plot and of the season. */
  readonly filed: string | null;
}

async function knownPlots(db: Executor, schemeId: string): Promise<ReadonlyMap<string, KnownPlot>> {
  const rows = await db
    .selectFrom('seasons')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .select(['plots.id', 'plots.owner_id', 'plots.block_id'])
    .select(['seasons.id as season_id', 'seasons.open', 'seasons.filed'])
    .where('plots.scheme_id', '=', schemeId)
    // Of several seasons the open one counts.
    .orderBy('seasons.open')
    .execute();
  return new Map(rows.map((row) => [row.id, row]));
}

async function addPlot(db: Executor, schemeId: string, id: string, filed: Filed): Promise<void> {
  const { way, variety_days, teams, basal_advised, ...plot } = filed;
  await insertPlot(db, { id, scheme_id: schemeId, ...plot });
  const season = { way, variety_days, teams, basal_advised, filed: JSON.stringify(filed) };
  await insertSeason(db, { id: `${id}/1`, plot_id: id, open: 1, choices: '{}', ...season });
}

async function updatePlot(db: Executor, id: string, before: KnownPlot, filed: Filed): Promise<void> {
  const changed = changedFields(before.filed, filed);
  if (Object.keys(changed).length === 0) return;
  const { number, label, owner_id, block_id, area_ha, place, ...season } = changed;
  const plot = {
    ...(label !== undefined && { label }),
    ...(area_ha !== undefined && { area_ha }),
    ...inFiledPair(before, filed, { owner_id, number }, 'owner_id', 'number'),
    ...inFiledPair(before, filed, { block_id, place }, 'block_id', 'place'),
  };
  if (Object.keys(plot).length > 0) await db.updateTable('plots').set(plot).where('id', '=', id).execute();
  await db
    .updateTable('seasons')
    .set({ ...season, filed: JSON.stringify(filed) })
    .where('id', '=', before.season_id)
    .execute();
}

/**
 * A number is one of its owner's numbers, and a place one of its block's: while an agent's owner or block stands, the file's
 * number or place belongs to another, and with the file's owner or block its number or place comes too.
 */
function inFiledPair<Of extends 'owner_id' | 'block_id', Within extends 'number' | 'place'>(
  before: KnownPlot,
  filed: Filed,
  changed: Partial<Record<Of | Within, unknown>>,
  of: Of,
  within: Within,
): Partial<Filed> {
  if (changed[of] !== undefined) return { [of]: filed[of], [within]: filed[within] };
  return changed[within] !== undefined && before[of] === filed[of] ? { [within]: filed[within] } : {};
}
