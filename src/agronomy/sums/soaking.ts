/**
 * Water for soaking land before the work, while what is soaked already evaporates and seeps (van de Goor & Zijlstra 1968,
 * ILRI). Depths in mm, losses in mm a day, areas in ha, flows in l/s as they come to the plot.
 */
import { MM_HA_A_DAY_FROM_LPS } from './units.ts';

export interface Soaking {
  /** Evaporation of open water (1.1 ETo) and percolation, a day: together they are the formula's M. */
  readonly evaporationMm: number;
  readonly percolationMm: number;
  /** T: in how many days all of the land is to be soaked. */
  readonly days: number;
  /** S: what saturates the soil and stands on it. */
  readonly depthMm: number;
}

/**
 * The flow over all of the land that soaks it in time, in mm a day: M e^k / (e^k - 1) with k = M T / S; S / T where nothing
 * is lost. Throws a RangeError for losses under 0, or days or a depth that are not over 0.
 */
export function soakingMmPerDay({ evaporationMm, percolationMm, days, depthMm }: Soaking): number {
  if (!(evaporationMm >= 0 && percolationMm >= 0 && days > 0 && depthMm > 0))
    throw new RangeError(
      `No soaking: ${evaporationMm} and ${percolationMm} mm a day, ${days} days, ${depthMm} mm.`,
    );
  return (depthMm / days) * overOneLessDecay(((evaporationMm + percolationMm) * days) / depthMm);
}

export interface Filling {
  readonly flowLps: number;
  readonly depthMm: number;
  /** What every soaked plot loses, and is given again first. */
  readonly lossMmPerDay: number;
}

/** The day, counted from the opening of the canal, on which an area is soaked; or by how many l/s the flow is short of it. */
export type Filled = { readonly days: number } | { readonly shortLps: number };

/**
 * Soaks an area by one flow, bit by bit, the soaked part being topped up: t = (S / M) ln(Q / (Q - M A)), and S A / Q where
 * nothing is lost. A flow of no more than M A never gets there. Throws a RangeError for a flow, depth or area not over 0.
 */
export function fillDay({ flowLps, depthMm, lossMmPerDay }: Filling, areaHa: number): Filled {
  if (!(flowLps > 0 && depthMm > 0 && areaHa > 0 && lossMmPerDay >= 0))
    throw new RangeError(
      `No filling: ${flowLps} l/s, ${depthMm} mm, ${lossMmPerDay} mm a day, ${areaHa} ha.`,
    );
  const toppingUpLps = (lossMmPerDay * areaHa) / MM_HA_A_DAY_FROM_LPS;
  if (flowLps <= toppingUpLps) return { shortLps: toppingUpLps - flowLps };
  const unlostDays = (depthMm * areaHa) / (MM_HA_A_DAY_FROM_LPS * flowLps);
  return { days: unlostDays * logOverShare(toppingUpLps / flowLps) };
}

/** The same for plots that one flow soaks in turn: for each, when it and all before it are soaked. */
export function fillDays(filling: Filling, plotsHa: readonly number[]): readonly Filled[] {
  let soakedHa = 0;
  return plotsHa.map((areaHa) => {
    soakedHa += areaHa;
    return fillDay(filling, soakedHa);
  });
}

/** k / (1 - e^-k), exact for tiny k; 1 where k is 0. */
const overOneLessDecay = (k: number) => (k === 0 ? 1 : k / -Math.expm1(-k));

/** -ln(1 - x) / x, exact for tiny x; 1 where x is 0. */
const logOverShare = (x: number) => (x === 0 ? 1 : -Math.log1p(-x) / x);
