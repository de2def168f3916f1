/** Gathers what the database knows of one phone, and turns it into the world of a conversation. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Day } from '../plan/day.ts';
import type { KeptReport, Person, PlotWorld, World } from '../talk/world.ts';
import { cautionsOf } from './cautions.ts';
import type { SchemeEntry } from './load-schemes.ts';
import { peopleOfPhone } from './people.ts';
import { plotsOfPhone } from './plots.ts';
import type { Executor } from './ready-query.ts';
import { type HeldReport, reportsOfPhone } from './reports.ts';
import type { PhonesTable } from './tables.ts';
import { findPhone } from './talks.ts';

/** All rows of one phone, read in at most five queries. */
export interface PhoneFacts {
  readonly number: string;
  /** Null when the number was never seen. */
  readonly row: PhonesTable | null;
  readonly people: readonly (Person & { readonly schemeId: string })[];
  readonly plots: readonly PlotWorld[];
  readonly reports: readonly HeldReport[];
  readonly cautioned: readonly string[];
}

/** What is not in the phone's rows: the scheme, its rules and the time. */
export interface Setting {
  readonly scheme: SchemeEntry;
  readonly rulebook: Rulebook;
  readonly today: Day;
  readonly nowMs: number;
}

/** Reads the phone's rows; an unknown number gives empty lists. */
export async function loadPhone(db: Executor, number: string): Promise<PhoneFacts> {
  const row = await findPhone(db, number);
  if (row === null) return { number, row, people: [], plots: [], reports: [], cautioned: [] };
  const people = await peopleOfPhone(db, number);
  const plots = people.length === 0 ? [] : await plotsOfPhone(db, number);
  const reports = plots.length === 0 ? [] : await reportsOfPhone(db, number);
  return { number, row, people, plots, reports, cautioned: await cautionsOf(db, number) };
}

/** The world of the phone's next step. */
export function worldOf(facts: PhoneFacts, setting: Setting): World {
  return {
    today: setting.today,
    nowMs: setting.nowMs,
    scheme: setting.scheme.world,
    rulebook: setting.rulebook,
    people: facts.people.map(({ id, name, lang, role }) => ({ id, name, lang, role })),
    plots: facts.plots.map((plot) => inScheme(withReports(plot, facts.reports), setting.scheme)),
    lastBatch: lastBatchOf(facts),
    stopped: facts.row?.stopped === 1,
    cautioned: facts.cautioned,
  };
}

function withReports(plot: PlotWorld, reports: readonly HeldReport[]): PlotWorld {
  const own = reports.filter((report) => report.seasonId === plot.seasonId).map(keptReport);
  return { ...plot, season: { ...plot.season, reports: own } };
}

/** A plot's season under the scheme's days of rest and its usual weather, where it has any. */
function inScheme(plot: PlotWorld, { settings: { restDays, climate } }: SchemeEntry): PlotWorld {
  return { ...plot, season: { ...plot.season, ...(restDays && { restDays }), ...(climate && { climate }) } };
}

/** A conversation is not told which phone brought a report. */
function keptReport({ phone: _phone, turn: _turn, ...report }: HeldReport): KeptReport {
  return report;
}

/** By the phone's own order of texts, not by the clock: a clock that was put back must not undo the wrong text. */
function lastBatchOf(facts: PhoneFacts): World['lastBatch'] {
  const own = facts.reports.filter((report) => report.phone === facts.number);
  const turn = own.reduce((newest, report) => Math.max(newest, report.turn), -1);
  const reports = own.filter((report) => report.turn === turn).map(keptReport);
  const [first] = reports;
  return first === undefined ? null : { id: first.batch, reports };
}
