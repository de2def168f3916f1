/** Water for one plot: what soaks it, what holds it, what one day takes, and how long its block's canal runs for that. */
import { figure, type Rulebook } from '../rulebook.ts';
import { SOAKING } from '../rules/sources.ts';
import { areaRefusal, notANumber } from './check-input.ts';
import { givenOr, openWater, type Taken } from './given-or.ts';
import { fillDay } from './soaking.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';
import { HOURS_IN_DAY, HOURS_IN_WEEK, M3_IN_MM_HA, MM_HA_A_DAY_FROM_LPS } from './units.ts';
import { arriving, type Flow, servedHa } from './water-turn.ts';

/** A block's canal at its head. The efficiency is the share that comes to the plot; the rulebook's when not given. */
export interface Canal {
  readonly litresPerSecond: number;
  readonly efficiency?: number;
}

export interface PlotWaterTerms {
  readonly areaHa: number;
  /** Reference evaporation; the rulebook's usual evaporation of open water when not given. */
  readonly etoMmPerDay?: number;
  readonly percolationMmPerDay?: number;
  readonly canal: Canal | null;
  /** Days since the last crop, 0 when not given: after a long fallow the soil takes more. */
  readonly fallowDays?: number;
}

/** Water out of the canal's head: what is lost on the way is in it. */
export interface FromCanal {
  readonly efficiency: number;
  /** Null when the flow can never soak the plot. */
  readonly soakM3: number | null;
  readonly soakHours: number | null;
  /** By how many l/s the flow is short of holding the plot; null when it is not. */
  readonly shortLps: number | null;
  readonly holdM3PerDay: number;
  readonly holdHoursPerWeek: number;
  /** How much land the flow holds when it always runs; null when land loses nothing. */
  readonly holdsHa: number | null;
}

export interface PlotWater extends Founded {
  readonly areaHa: number;
  readonly soakDepthMm: number;
  readonly evaporationMmPerDay: number;
  readonly percolationMmPerDay: number;
  /** What one day takes from the flooded plot. */
  readonly lossMmPerDay: number;
  readonly lossM3PerDay: number;
  /** What goes into the soil and stands on it, without what is lost meanwhile. */
  readonly soakedM3: number;
  readonly canal: FromCanal | null;
}

/**
 * The plot's water. 0.4 ha at 5.5 mm of evaporation and 4 mm of percolation a day are soaked with 1000 m3 and lose 38 m3 a
 * day. Refuses an area that is none, evaporation, percolation or fallow that cannot be ("evaporation-range",
 * "percolation-range", "fallow-negative"), and what canalRefusal refuses.
 */
export function plotWater(terms: PlotWaterTerms, book: Rulebook): PlotWater | Refusal {
  const refused = refusalOf(terms, book);
  if (refused) return refused;
  const { areaHa, canal } = terms;
  const depth = soakDepth(book, terms.fallowDays);
  const evaporation = openWater(book, terms.etoMmPerDay);
  const percolation = givenOr(book, terms.percolationMmPerDay, 'percolation');
  const efficiency = canal && givenOr(book, canal.efficiency, 'canal.efficiency');
  const flow = canal && efficiency && { ...canal, efficiency: efficiency.value };
  const lossMmPerDay = evaporation.value + percolation.value;
  const taken = [depth, evaporation, percolation, ...(efficiency ? [efficiency] : [])];
  return {
    areaHa,
    soakDepthMm: depth.value,
    evaporationMmPerDay: evaporation.value,
    percolationMmPerDay: percolation.value,
    lossMmPerDay,
    lossM3PerDay: lossMmPerDay * areaHa * M3_IN_MM_HA,
    soakedM3: depth.value * areaHa * M3_IN_MM_HA,
    canal: flow && fromCanal(flow, areaHa, depth.value, lossMmPerDay),
    ...founded(
      book,
      taken.flatMap(({ figures }) => figures),
      SOAKING,
    ),
  };
}

/** A canal without water ("flow-zero"), with too much ("flow-over"), or that brings nothing or more than it has ("efficiency-range"). */
export function canalRefusal({ litresPerSecond, efficiency }: Canal, book: Rulebook): Refusal | null {
  const none = notANumber(litresPerSecond, efficiency);
  if (none) return none;
  if (litresPerSecond <= 0) return refusal('flow-zero', litresPerSecond);
  if (litresPerSecond > figure(book, 'sum.flow.max')) return refusal('flow-over', litresPerSecond);
  const can = efficiency === undefined || (efficiency > 0 && efficiency <= 1);
  return can ? null : refusal('efficiency-range', efficiency);
}

/** Evaporation or percolation in mm a day that is under 0, or more than any place or plot has; null when it can be. */
export function lossRefusal(book: Rulebook, etoMmPerDay = 0, percolationMmPerDay = 0): Refusal | null {
  const none = notANumber(etoMmPerDay, percolationMmPerDay);
  if (none) return none;
  if (etoMmPerDay < 0 || etoMmPerDay > figure(book, 'sum.evaporation.max'))
    return refusal('evaporation-range', etoMmPerDay);
  if (percolationMmPerDay < 0 || percolationMmPerDay > figure(book, 'sum.percolation.max'))
    return refusal('percolation-range', percolationMmPerDay);
  return null;
}

function refusalOf(terms: PlotWaterTerms, book: Rulebook): Refusal | null {
  const { areaHa, etoMmPerDay, percolationMmPerDay, canal, fallowDays = 0 } = terms;
  const refused =
    areaRefusal(book, areaHa) ??
    lossRefusal(book, etoMmPerDay, percolationMmPerDay) ??
    notANumber(fallowDays);
  if (refused) return refused;
  if (fallowDays < 0) return refusal('fallow-negative', fallowDays);
  return canal && canalRefusal(canal, book);
}

/** S of the soaking formula. */
function soakDepth(book: Rulebook, fallowDays = 0): Taken {
  const limit = 'soaking.long-fallow';
  const depth = fallowDays >= figure(book, limit) ? 'soaking.depth-after-fallow' : 'soaking.depth';
  return { value: figure(book, depth), figures: [depth, limit] };
}

function fromCanal(flow: Required<Flow>, areaHa: number, depthMm: number, lossMmPerDay: number): FromCanal {
  const filled = fillDay({ flowLps: arriving(flow), depthMm, lossMmPerDay }, areaHa);
  const soakDays = 'days' in filled ? filled.days : null;
  const holdLps = (lossMmPerDay * areaHa) / MM_HA_A_DAY_FROM_LPS / flow.efficiency;
  return {
    efficiency: flow.efficiency,
    soakM3: soakDays === null ? null : soakDays * MM_HA_A_DAY_FROM_LPS * M3_IN_MM_HA * flow.litresPerSecond,
    soakHours: soakDays === null ? null : soakDays * HOURS_IN_DAY,
    shortLps: 'shortLps' in filled ? filled.shortLps / flow.efficiency : null,
    holdM3PerDay: holdLps * MM_HA_A_DAY_FROM_LPS * M3_IN_MM_HA,
    holdHoursPerWeek: (holdLps / flow.litresPerSecond) * HOURS_IN_WEEK,
    holdsHa: lossMmPerDay === 0 ? null : servedHa(flow, 1, lossMmPerDay),
  };
}
