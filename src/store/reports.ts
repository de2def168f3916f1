/** What growers reported. Rows are only ever added: an undo is a row of its own that names the text it takes back. */
import type { Activity, Measures, Stage } from '../agronomy/season.ts';
import type { KeptRain, KeptReport, NewRain, NewReport } from '../talk/world.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import { dateColumn, dayOfColumn } from './span-columns.ts';
import type { ReportsTable, UndosTable } from './tables.ts';

/** The text that brings a report. */
export interface Bringer {
  readonly batch: string;
  readonly phone: string;
  /** Place of the text among the phone's texts. */
  readonly turn: number;
  readonly nowMs: number;
}

/** A report in force, with the phone that texted it. */
export interface HeldReport extends KeptReport {
  readonly phone: string | null;
  readonly turn: number;
}

/** Rain in force, with the phone that texted it. */
export interface HeldRain extends KeptRain {
  readonly phone: string | null;
  readonly turn: number;
}

/** What stands of all that the phone's people texted. */
export interface Held {
  readonly reports: readonly HeldReport[];
  readonly rains: readonly HeldRain[];
}

/** Rain is kept among the reports, under this name: it is taken back in the same way. */
const RAIN = 'rain';

const insertReport = readyQuery((db, row: ReportsTable) =>
  db.insertInto('reports').values({
    id: row.id,
    season_id: row.season_id,
    batch: row.batch,
    phone: row.phone,
    turn: row.turn,
    activity: row.activity,
    stage: row.stage,
    done_on: row.done_on,
    measures: row.measures,
    corrects: row.corrects,
    said_ms: row.said_ms,
  }),
);

const insertUndo = readyQuery((db, row: UndosTable) =>
  db
    .insertInto('undos')
    .values({ report_id: row.report_id, by_batch: row.by_batch, said_ms: row.said_ms })
    .onConflict((on) => on.column('report_id').doNothing()),
);

const openReports = (db: Executor) =>
  db
    .selectFrom('reports')
    .innerJoin('seasons', 'seasons.id', 'reports.season_id')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .leftJoin('undos', 'undos.report_id', 'reports.id')
    .selectAll('reports')
    .where('seasons.open', '=', 1)
    .where('undos.report_id', 'is', null)
    .orderBy('reports.said_ms')
    .orderBy('reports.turn')
    .orderBy('reports.id');

const selectReports = readyQuery((db, at: { phone: string }) =>
  openReports(db)
    .innerJoin('phone_people', 'phone_people.person_id', 'plots.owner_id')
    .where('phone_people.phone', '=', at.phone),
);

/** Adds one report. */
export async function addReport(db: Executor, id: string, report: NewReport, by: Bringer): Promise<void> {
  await insertReport(db, {
    id,
    season_id: report.seasonId,
    batch: by.batch,
    phone: by.phone,
    turn: by.turn,
    activity: report.activity,
    stage: report.stage,
    done_on: dateColumn(report.on),
    measures: JSON.stringify(report.measures),
    corrects: report.corrects ?? null,
    said_ms: by.nowMs,
  });
}

/** Adds rain of one day on one plot. */
export async function addRain(db: Executor, id: string, rain: NewRain, by: Bringer): Promise<void> {
  await insertReport(db, {
    id,
    season_id: rain.seasonId,
    batch: by.batch,
    phone: by.phone,
    turn: by.turn,
    activity: RAIN,
    stage: 'finished',
    done_on: dateColumn(rain.on),
    measures: JSON.stringify({ mm: rain.mm }),
    corrects: rain.corrects ?? null,
    said_ms: by.nowMs,
  });
}

/** Takes back these reports and rains; one that was taken back before stays so. */
export async function undoReports(db: Executor, ids: readonly string[], by: Bringer): Promise<void> {
  for (const id of ids) await insertUndo(db, { report_id: id, by_batch: by.batch, said_ms: by.nowMs });
}

/** The reports and rain in force on the open seasons of the phone's people, oldest first. */
export async function reportsOfPhone(db: Executor, phone: string): Promise<Held> {
  return heldOf(await selectReports(db, { phone }));
}

/** The reports and rain in force on the open seasons of a scheme, oldest first. */
export async function reportsOfScheme(db: Executor, schemeId: string): Promise<Held> {
  return heldOf(await openReports(db).where('plots.scheme_id', '=', schemeId).execute());
}

function heldOf(rows: readonly ReportsTable[]): Held {
  return {
    reports: rows.filter(({ activity }) => activity !== RAIN).map(reportOf),
    rains: rows.filter(({ activity }) => activity === RAIN).map(rainOf),
  };
}

/** The reports and rain in force on all open seasons of these blocks, by season, oldest first. */
export async function reportsIn(
  db: Executor,
  blockIds: readonly string[],
): Promise<ReadonlyMap<string, Held>> {
  const rows = await db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .innerJoin('reports', 'reports.season_id', 'seasons.id')
    .leftJoin('undos', 'undos.report_id', 'reports.id')
    .selectAll('reports')
    .where('plots.block_id', 'in', blockIds)
    .where('seasons.open', '=', 1)
    .where('undos.report_id', 'is', null)
    .orderBy('reports.said_ms')
    .orderBy('reports.turn')
    .orderBy('reports.id')
    .execute();
  const bySeason = new Map<string, { reports: HeldReport[]; rains: HeldRain[] }>();
  for (const row of rows) {
    const held = bySeason.get(row.season_id) ?? { reports: [], rains: [] };
    bySeason.set(row.season_id, held);
    if (row.activity === RAIN) held.rains.push(rainOf(row));
    else held.reports.push(reportOf(row));
  }
  return bySeason;
}

function reportOf(row: ReportsTable): HeldReport {
  return {
    id: row.id,
    seasonId: row.season_id,
    batch: row.batch,
    phone: row.phone,
    turn: row.turn,
    activity: row.activity as Activity,
    stage: row.stage as Stage,
    on: dayOfColumn(row.done_on),
    measures: JSON.parse(row.measures) as Measures,
    ...(row.corrects === null ? {} : { corrects: row.corrects }),
  };
}

function rainOf(row: ReportsTable): HeldRain {
  const { mm } = JSON.parse(row.measures) as { readonly mm: number };
  const { id, season_id: seasonId, batch, phone, turn } = row;
  const corrects = row.corrects === null ? {} : { corrects: row.corrects };
  return { id, seasonId, batch, phone, turn, on: dayOfColumn(row.done_on) ?? 0, mm, ...corrects };
}
