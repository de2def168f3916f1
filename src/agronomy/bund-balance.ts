/** Water that stands on a rain-fed plot behind its bunds, day by day. Depths and flows in mm. */
import type { Day } from '../plan/day.ts';
import { mmByDay } from './rain.ts';
import type { Rain } from './season.ts';

export interface BundBalance {
  /** Depth at the end of each day, from the first day on. */
  readonly depthsMm: readonly number[];
  /** What ran over the bunds in all. */
  readonly overflowMm: number;
  /** What evaporated or seeped away in all. */
  readonly lostMm: number;
}

export interface BundTerms {
  readonly from: Day;
  readonly to: Day;
  /** Water that stands at the beginning of the first day. */
  readonly startMm: number;
  /** Evaporation of open water on a day. */
  readonly evaporationMm: (day: Day) => number;
  readonly percolationMm: number;
  readonly bundMm: number;
}

/** Each day: what stood, and the rain, and less what evaporates and seeps; never under 0, never over the bund. */
export function bundBalance(rains: readonly Rain[], terms: BundTerms): BundBalance {
  const depthsMm: number[] = [];
  const fell = mmByDay(rains);
  let [depth, overflowMm, lostMm] = [terms.startMm, 0, 0];
  for (let day = terms.from; day <= terms.to; day++) {
    const rain = fell.get(day) ?? 0;
    const lost = Math.min(depth + rain, terms.evaporationMm(day) + terms.percolationMm);
    const held = depth + rain - lost;
    depth = Math.min(held, terms.bundMm);
    overflowMm += held - depth;
    lostMm += lost;
    depthsMm.push(depth);
  }
  return { depthsMm, overflowMm, lostMm };
}
