/** Gathers what the database knows of one phone, and turns it into the world of a conversation. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Day } from '../plan/day.ts';
import type { Person, PlotWorld, World } from '../talk/world.ts';
import { cautionsOf } from './cautions.ts';
import type { SchemeEntry } from './load-schemes.ts';
import { peopleOfPhone } from './people.ts';
import { plotsOfPhone } from './plots.ts';
import type { Executor } from './ready-query.ts';
import { type Held, type HeldReport, reportsOfPhone } from './reports.ts';
import type { PhoneRow } from './tables.ts';
import { findPhone, isDoubted } from './talks.ts';

/** Of a plot or phone that nobody has texted about. */
export const NOTHING: Held = { reports: [], rains: [] };

/** All rows of one phone, read in at most five queries. */
export interface PhoneFacts {
  readonly number: string;
  /** Null when the number was never seen. */
  readonly row: PhoneRow | null;
  readonly people: readonly (Person & { readonly schemeId: string })[];
  readonly plots: readonly PlotWorld[];
  readonly held: Held;
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
  if (row === null) return { number, row, people: [], plots: [], held: NOTHING, cautioned: [] };
  const people = await peopleOfPhone(db, number);
  const plots = people.length === 0 ? [] : await plotsOfPhone(db, number);
  const held = plots.length === 0 ? NOTHING : await reportsOfPhone(db, number);
  return { number, row, people, plots, held, cautioned: await cautionsOf(db, number) };
}

/** The world of the phone's next step. */
export function worldOf(facts: PhoneFacts, setting: Setting): World {
  return {
    today: setting.today,
    nowMs: setting.nowMs,
    scheme: setting.scheme.world,
    rulebook: setting.rulebook,
    people: facts.people.map(({ id, name, lang, role }) => ({ id, name, lang, role })),
    plots: facts.plots.map((plot) => inScheme(withReports(plot, facts.held), setting.scheme)),
    lastBatch: lastBatchOf(facts),
    stopped: facts.row?.stopped === 1,
    cautioned: facts.cautioned,
    ...(isInDoubt(facts, setting.nowMs) && { doubted: true }),
  };
}

/** Whether what the line knows of the number's people may be somebody else's to read. */
export function isInDoubt({ row, people }: PhoneFacts, nowMs: number): boolean {
  return people.length > 0 && row !== null && isDoubted(row, nowMs);
}

/** The language that screens begin in: of those of the phone's people the one it was answered in last, else the first. */
export function screenLang({ row, people }: PhoneFacts): string {
  return (people.find(({ lang }) => lang === row?.lang) ?? people[0])?.lang ?? '';
}

/** The plot with those of the reports and rain that are of its season. */
export function withReports(plot: PlotWorld, held: Held): PlotWorld {
  const own = <T extends { readonly seasonId: string }>(all: readonly T[]) =>
    all.filter(({ seasonId }) => seasonId === plot.seasonId);
  const rains = own(held.rains).map(kept);
  const season = { ...plot.season, reports: own(held.reports).map(kept) };
  return { ...plot, season: rains.length > 0 ? { ...season, rains } : season };
}

/** A plot's season under the scheme's days of rest and its usual weather, where it has any. */
export function inScheme(plot: PlotWorld, { settings: { restDays, climate } }: SchemeEntry): PlotWorld {
  return { ...plot, season: { ...plot.season, ...(restDays && { restDays }), ...(climate && { climate }) } };
}

/** A conversation is not told which phone brought a report. */
function kept<T extends object>({
  phone: _phone,
  turn: _turn,
  ...rest
}: T & Pick<HeldReport, 'phone' | 'turn'>) {
  return rest;
}

/** By the phone's own order of texts, not by the clock: a clock that was put back must not undo the wrong text. */
function lastBatchOf({ held, number }: PhoneFacts): World['lastBatch'] {
  const reports = held.reports.filter(({ phone }) => phone === number);
  const rains = held.rains.filter(({ phone }) => phone === number);
  const turn = [...reports, ...rains].reduce((newest, one) => Math.max(newest, one.turn), -1);
  const lastReports = reports.filter((one) => one.turn === turn).map(kept);
  const lastRains = rains.filter((one) => one.turn === turn).map(kept);
  const [first] = [...lastReports, ...lastRains];
  if (first === undefined) return null;
  return { id: first.batch, reports: lastReports, ...(lastRains.length > 0 && { rains: lastRains }) };
}
