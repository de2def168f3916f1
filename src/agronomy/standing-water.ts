/** How much water should stand on a rain-fed plot today, from the rain that was texted. */
import type { Day } from '../plan/day.ts';
import { bundBalance } from './bund-balance.ts';
import { countedRain, dryDays, rainSum } from './rain.ts';
import { figure, type Rulebook } from './rulebook.ts';
import type { Season } from './season.ts';
import { monthEto } from './sums/climate.ts';
import { monthOf } from './working-days.ts';

export interface StandingWater {
  readonly sumMm: number;
  /** Depth this evening; 0 while the rain still goes into the soil. */
  readonly standingMm: number;
  readonly overflowMm: number;
  /** Days without rain up to today; null when none was texted. */
  readonly dryDays: number | null;
  /** The newest day of which rain, or none, was texted; null when nothing was. */
  readonly heardOn: Day | null;
}

/** Null for an irrigated plot. Rain soaks the soil first; from the day on which it is soaked, water stands. */
export function standingWater(book: Rulebook, season: Season, today: Day): StandingWater | null {
  if (season.way.water !== 'rain-fed') return null;
  const rains = countedRain(season, today);
  const { sumMm, reachedOn } = rainSum(rains, figure(book, 'rainfall.puddle'));
  const dry = { dryDays: dryDays(book, rains, today), heardOn: rains.at(-1)?.on ?? null };
  if (reachedOn === null) return { sumMm, standingMm: 0, overflowMm: 0, ...dry };
  const { sumMm: soakedBy } = rainSum(
    rains.filter(({ on }) => on <= reachedOn),
    0,
  );
  const { depthsMm, overflowMm } = bundBalance(
    rains.filter(({ on }) => on > reachedOn),
    {
      from: reachedOn,
      to: today,
      startMm: soakedBy - figure(book, 'rainfall.puddle'),
      evaporationMm: (day) => evaporation(book, season, day),
      percolationMm: figure(book, 'percolation'),
      bundMm: figure(book, 'bund-height'),
    },
  );
  return { sumMm, standingMm: depthsMm.at(-1) ?? 0, overflowMm, ...dry };
}

/** Of open water: from the ETo of the month, or the usual figure. */
function evaporation(book: Rulebook, { climate }: Season, day: Day): number {
  return monthEto(book, climate, monthOf(day) + 1).value * figure(book, 'evaporation.open-water');
}
