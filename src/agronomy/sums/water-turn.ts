/** How long a flow takes to put a depth of water on a plot, and how much land it serves. Nothing is lost meanwhile. */
import { HOURS_IN_DAY, MM_HA_A_DAY_FROM_LPS } from './units.ts';

export interface Flow {
  readonly litresPerSecond: number;
  /** The share of it that comes to the plot, from over 0 to 1; all of it when not given. */
  readonly efficiency?: number;
}

/** What comes to the plot, in l/s. */
export const arriving = ({ litresPerSecond, efficiency = 1 }: Flow): number => litresPerSecond * efficiency;

/**
 * Hours of a water turn: t = A d / (3.6 Q e) with A in m2, d in m and Q in m3/s thousandths. 5 l/s put 60 mm on 0.3 ha in
 * 10 hours. The flow must be over 0.
 */
export function turnHours(areaHa: number, depthMm: number, flow: Flow): number {
  return (areaHa * depthMm * HOURS_IN_DAY) / (MM_HA_A_DAY_FROM_LPS * arriving(flow));
}

/** Hectares on which a flow puts this depth in so many days. The depth must be over 0. */
export function servedHa(flow: Flow, days: number, depthMm: number): number {
  return (MM_HA_A_DAY_FROM_LPS * arriving(flow) * days) / depthMm;
}
