/**
 * Water turns: one flow soaks plots one after the other, in the order of the canal, while those that are soaked lose water and
 * are topped up first. The law is that of `agronomy/sums/soaking.ts`; here the canal may close at night and on days of rest,
 * and what is lost meanwhile is given back before the flow goes on.
 */
import { HOURS_IN_DAY, M3_IN_MM_HA, MM_HA_A_DAY_FROM_LPS } from '../../agronomy/sums/units.ts';
import type { Day } from '../../plan/day.ts';
import type { Moment, Visit } from './appointment.ts';

export interface TurnPlot {
  readonly plotId: string;
  readonly areaHa: number;
}

export interface CanalTurns {
  /** What comes to the plots, in l/s. */
  readonly flowLps: number;
  /** What saturates the soil and stands on it. */
  readonly depthMm: number;
  readonly lossMmPerDay: number;
  /** Land that is under water already and is topped up first, in ha; none when not given. */
  readonly heldHa?: number;
  /** The day on which the canal opens, and the hour, midnight when not given. */
  readonly from: Day;
  readonly fromHour?: number;
  /** Hours of the day between which it is open, 0 to 24; all day when not given. */
  readonly open?: { readonly fromHour: number; readonly toHour: number };
  readonly isClosed?: (day: Day) => boolean;
}

export interface Turn extends Visit {
  readonly plotId: string;
}

export interface WaterTurns {
  /** Of the plots that the canal can soak and hold, in its order. */
  readonly turns: readonly Turn[];
  /** The plots behind them, and how many l/s more it takes to hold them all; empty and 0 where the flow is enough. */
  readonly without: readonly string[];
  readonly shortLps: number;
  /** Up to the end of the last turn. */
  readonly inM3: number;
  readonly soakedM3: number;
  readonly lostM3: number;
}

/** Time is in days from the opening day's midnight, water in mm over a hectare. */
interface State {
  at: number;
  /** Land that is soaked, in ha; during a turn part of a plot. */
  soakedHa: number;
  /** What the soaked land lacks after the canal was closed. */
  lacking: number;
  in: number;
  lost: number;
}

/** A canal that has not soaked a plot in so long never will. */
const LONGEST_DAYS = 366;
const NOTHING = 1e-9;

/**
 * The turns of these plots. Throws a RangeError for a flow, depth or area not over 0, a loss under 0, or hours that are no span
 * of a day. One flow of 5 l/s soaks 0.3 ha of 60 mm without loss in 10 hours.
 */
export function waterTurns(plots: readonly TurnPlot[], canal: CanalTurns): WaterTurns {
  check(plots, canal);
  const at = (canal.fromHour ?? 0) / HOURS_IN_DAY;
  const state: State = { at, soakedHa: canal.heldHa ?? 0, lacking: 0, in: 0, lost: 0 };
  const turns: Turn[] = [];
  for (const [i, { plotId, areaHa }] of plots.entries()) {
    const before = { ...state };
    toOpening(state, canal);
    const start = state.at;
    if (!soakTo(state, before.soakedHa + areaHa, canal))
      return {
        ...told(turns, before, canal),
        without: idsFrom(plots, i),
        shortLps: shortOf(before.soakedHa + areaOf(plots.slice(i)), canal),
      };
    turns.push({ plotId, start: momentAt(start, canal), end: momentAt(state.at, canal) });
  }
  return { ...told(turns, state, canal), without: [], shortLps: 0 };
}

const areaOf = (plots: readonly TurnPlot[]) => plots.reduce((sum, { areaHa }) => sum + areaHa, 0);

const idsFrom = (plots: readonly TurnPlot[], at: number) => plots.slice(at).map(({ plotId }) => plotId);

function told(turns: readonly Turn[], state: State, { depthMm, heldHa = 0 }: CanalTurns) {
  return {
    turns,
    inM3: state.in * M3_IN_MM_HA,
    soakedM3: ((state.soakedHa - heldHa) * depthMm - state.lacking) * M3_IN_MM_HA,
    lostM3: state.lost * M3_IN_MM_HA,
  };
}

/** Soaks land up to an area, through as many closures as it takes; false when it never gets there. */
function soakTo(state: State, wantedHa: number, canal: CanalTurns): boolean {
  while (state.soakedHa < wantedHa - NOTHING) {
    toOpening(state, canal);
    if (state.at > LONGEST_DAYS) return false;
    const left = closingAfter(state.at, canal) - state.at;
    const refilled = refill(state, left, canal);
    soak(state, wantedHa, left - refilled, canal);
  }
  state.soakedHa = wantedHa;
  return true;
}

/** Gives back what the soaked land lacks, within the time left; says how long it took. */
function refill(state: State, left: number, { flowLps, lossMmPerDay }: CanalTurns): number {
  if (state.lacking <= NOTHING) return 0;
  const inflow = flowLps * MM_HA_A_DAY_FROM_LPS;
  const net = inflow - lossMmPerDay * state.soakedHa;
  const needed = net > 0 ? Math.min(left, state.lacking / net) : left;
  state.lacking = Math.max(0, state.lacking - net * needed);
  pass(state, needed, inflow, lossMmPerDay * state.soakedHa * needed);
  return needed;
}

/** Soaks on, up to the area or as far as the time left allows: S dA/dt = Q - M A. */
function soak(state: State, wantedHa: number, left: number, canal: CanalTurns): void {
  if (left <= NOTHING) return;
  const { flowLps, depthMm, lossMmPerDay } = canal;
  const inflow = flowLps * MM_HA_A_DAY_FROM_LPS;
  const rate = lossMmPerDay / depthMm;
  const most = rate === 0 ? Number.POSITIVE_INFINITY : inflow / lossMmPerDay;
  const whole =
    rate === 0
      ? ((wantedHa - state.soakedHa) * depthMm) / inflow
      : Math.log((most - state.soakedHa) / (most - wantedHa)) / rate;
  const canEnd = wantedHa < most && whole <= left;
  const days = canEnd ? whole : left;
  const soaked = canEnd ? wantedHa : areaAfter(state.soakedHa, days, inflow, canal);
  const lost = inflow * days - (soaked - state.soakedHa) * depthMm;
  state.soakedHa = soaked;
  pass(state, days, inflow, lost);
}

function areaAfter(
  soakedHa: number,
  days: number,
  inflow: number,
  { depthMm, lossMmPerDay }: CanalTurns,
): number {
  if (lossMmPerDay === 0) return soakedHa + (inflow * days) / depthMm;
  const most = inflow / lossMmPerDay;
  return most - (most - soakedHa) * Math.exp((-lossMmPerDay / depthMm) * days);
}

function pass(state: State, days: number, inflow: number, lost: number): void {
  state.at += days;
  state.in += inflow * days;
  state.lost += lost;
}

const hoursOf = ({ open }: CanalTurns) => ({ from: open?.fromHour ?? 0, to: open?.toHour ?? HOURS_IN_DAY });
const isOpenDay = ({ from, isClosed }: CanalTurns, day: number) => isClosed?.(from + day) !== true;

/** Goes on to the next moment at which the canal is open; what is soaked loses water meanwhile. */
function toOpening(state: State, canal: CanalTurns): void {
  const { from, to } = hoursOf(canal);
  // A canal that does not open within the year has come to its end.
  let opening = Math.max(state.at, LONGEST_DAYS + 1);
  for (let day = Math.floor(state.at + NOTHING); ; day += 1) {
    const [starts, ends] = [day + from / HOURS_IN_DAY, day + to / HOURS_IN_DAY];
    if (isOpenDay(canal, day) && state.at < ends - NOTHING) {
      opening = Math.max(state.at, starts);
      break;
    }
    if (day > LONGEST_DAYS) break;
  }
  const lost = (opening - state.at) * canal.lossMmPerDay * state.soakedHa;
  state.lacking += lost;
  state.lost += lost;
  state.at = opening;
}

/** When the canal closes next; a canal that is open all day goes on till a closed day. */
function closingAfter(at: number, canal: CanalTurns): number {
  const { from, to } = hoursOf(canal);
  const day = Math.floor(at + NOTHING);
  const allDay = from === 0 && to === HOURS_IN_DAY;
  if (!allDay) return day + to / HOURS_IN_DAY;
  let end = day + 1;
  while (end < at + LONGEST_DAYS && isOpenDay(canal, end)) end += 1;
  return end;
}

/** By how many l/s the flow is short of holding so much land, with the hours of a week of days in which it is open. */
function shortOf(soakedHa: number, canal: CanalTurns): number {
  const { from, to } = hoursOf(canal);
  const week = Array.from({ length: 7 }, (_, day) => isOpenDay(canal, day)).filter(Boolean).length;
  const share = (week / 7) * ((to - from) / HOURS_IN_DAY);
  const needed = (canal.lossMmPerDay * soakedHa) / MM_HA_A_DAY_FROM_LPS / share;
  return Math.max(0, needed - canal.flowLps);
}

function momentAt(at: number, { from }: CanalTurns): Moment {
  const minutes = Math.round(at * HOURS_IN_DAY * 60);
  const day = Math.floor(minutes / (HOURS_IN_DAY * 60));
  return { day: from + day, hour: minutes / 60 - day * HOURS_IN_DAY };
}

function check(
  plots: readonly TurnPlot[],
  { flowLps, depthMm, lossMmPerDay, open, heldHa = 0 }: CanalTurns,
): void {
  const areas = heldHa >= 0 && plots.every(({ areaHa }) => areaHa > 0);
  const hours = !open || (open.fromHour >= 0 && open.toHour <= HOURS_IN_DAY && open.fromHour < open.toHour);
  if (flowLps > 0 && depthMm > 0 && lossMmPerDay >= 0 && areas && hours) return;
  throw new RangeError(
    `No water turns: ${flowLps} l/s, ${depthMm} mm, ${lossMmPerDay} mm a day, ${plots.length} plots.`,
  );
}
