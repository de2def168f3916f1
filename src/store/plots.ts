/** Plots with their open season, as the phone's people own them. */
import type { Season, Turn, Way } from '../agronomy/season.ts';
import type { Visit } from '../scheme/group/appointment.ts';
import type { BroadcastHead } from '../talk/broadcast.ts';
import type { PlotWorld } from '../talk/world.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { SeasonChoices } from './seasons.ts';
import { dayOfColumn, spanOf } from './span-columns.ts';

/** What is read of every plot: its open season, its block's dates and its appointments. */
const openPlots = (db: Executor) =>
  db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .innerJoin('blocks', 'blocks.id', 'plots.block_id')
    .select(['plots.id', 'plots.number', 'plots.label', 'plots.owner_id', 'plots.block_id', 'plots.area_ha'])
    .select(['seasons.id as season_id', 'seasons.way', 'seasons.variety_days', 'seasons.choices'])
    .select(['seasons.teams', 'seasons.basal_advised'])
    .select(['blocks.water_from', 'blocks.water_to', 'blocks.target_from', 'blocks.target_to'])
    .select(['blocks.rain_from', 'seasons.planned_on'])
    .leftJoin('appointments as water', (join) =>
      join.onRef('water.plot_id', '=', 'plots.id').on('water.kind', '=', 'water'),
    )
    .leftJoin('appointments as team', (join) =>
      join.onRef('team.plot_id', '=', 'plots.id').on('team.kind', '=', 'team'),
    )
    .leftJoin('broadcasts', 'broadcasts.id', 'team.broadcast_id')
    .select(['water.visit as water_visit', 'team.visit as team_visit', 'broadcasts.head as team_head'])
    .where('seasons.open', '=', 1);

const selectPlots = readyQuery((db, at: { phone: string }) =>
  openPlots(db)
    .innerJoin('phone_people', 'phone_people.person_id', 'plots.owner_id')
    .where('phone_people.phone', '=', at.phone),
);

/** A plot with its open season, its block's dates and its appointments. */
export type PlotRow = Awaited<ReturnType<typeof selectPlots>>[number];

/** The plots of everyone who uses the phone, by number, each with an open season and no reports yet. */
export async function plotsOfPhone(db: Executor, phone: string): Promise<readonly PlotWorld[]> {
  const plots = (await selectPlots(db, { phone })).map(plotOf);
  return plots.sort((a, b) => byNumber(a.number, b.number) || (a.id < b.id ? -1 : 1));
}

/** The plots of these blocks, each block's in canal order. */
export async function plotRows(db: Executor, blockIds: readonly string[]): Promise<readonly PlotRow[]> {
  return await openPlots(db)
    .where('plots.block_id', 'in', blockIds)
    .orderBy('plots.block_id')
    .orderBy('plots.place')
    .orderBy('plots.id')
    .execute();
}

/** The plots of a scheme by block and by place along its canal, each with an open season and no reports yet. */
export async function plotsOfScheme(db: Executor, schemeId: string): Promise<readonly PlotWorld[]> {
  const rows = openPlots(db).where('plots.scheme_id', '=', schemeId);
  return (await rows.orderBy('plots.block_id').orderBy('plots.place').orderBy('plots.id').execute()).map(
    plotOf,
  );
}

const selectLastPlace = readyQuery((db, at: { blockId: string }) =>
  db
    .selectFrom('plots')
    .select((eb) => eb.fn.max('place').as('last'))
    .where('block_id', '=', at.blockId),
);

/** The place of a new plot at the end of its block's canal. */
export async function placeAtEnd(db: Executor, blockId: string): Promise<number> {
  return ((await selectLastPlace(db, { blockId }))[0]?.last ?? 0) + 1;
}

const selectOwner = readyQuery((db, at: { id: string }) =>
  db.selectFrom('plots').select('owner_id').where('id', '=', at.id),
);

/** Who has the plot; null when it is not there. */
export async function ownerOf(db: Executor, plotId: string): Promise<string | null> {
  return (await selectOwner(db, { id: plotId }))[0]?.owner_id ?? null;
}

/** "2" before "10"; words after numbers. */
export function byNumber(a: string, b: string): number {
  const [x, y] = [Number(a), Number(b)];
  if (Number.isNaN(x) || Number.isNaN(y)) return a === b ? 0 : a < b ? -1 : 1;
  return x - y;
}

/** The plot with its season, without reports yet. */
export function plotOf(row: PlotRow): PlotWorld {
  return {
    id: row.id,
    number: row.number,
    label: row.label,
    ownerId: row.owner_id,
    blockId: row.block_id,
    seasonId: row.season_id,
    season: seasonOf(row),
  };
}

function seasonOf(row: PlotRow): PlotWorld['season'] {
  const { target, ...choices } = JSON.parse(row.choices) as SeasonChoices;
  const rainFrom = dayOfColumn(row.rain_from);
  return {
    way: JSON.parse(row.way) as Way,
    areaHa: row.area_ha,
    varietyDays: row.variety_days,
    blockWater: spanOf(row.water_from, row.water_to),
    target: target ?? spanOf(row.target_from, row.target_to),
    ...(row.teams === null ? {} : { teams: JSON.parse(row.teams) as NonNullable<Season['teams']> }),
    ...(row.basal_advised === null ? {} : { basalAdvised: row.basal_advised === 1 }),
    ...(rainFrom === null ? {} : { rainFrom }),
    ...appointmentsOf(row),
    ...choices,
    reports: [],
  };
}

/** The days of the plot's turn at the canal and of the shared team's visit, as its plan needs them. */
function appointmentsOf(row: PlotRow): Pick<Season, 'waterTurn' | 'teamVisit'> {
  const [water, team] = [daysOf(row.water_visit), daysOf(row.team_visit)];
  const head = row.team_head === null ? null : (JSON.parse(row.team_head) as BroadcastHead);
  return {
    ...(water && { waterTurn: water }),
    ...(team && head?.kind === 'team' && { teamVisit: { ...team, activity: head.activity } }),
  };
}

function daysOf(visit: string | null): Turn | null {
  if (visit === null) return null;
  const { start, end } = JSON.parse(visit) as Visit;
  return { from: start.day, to: end.day };
}
