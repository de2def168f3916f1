/** What a place's usual weather takes and brings in a month: reference evaporation, and rain that a crop can use. */
import { figure, type Rulebook, type Source } from '../rulebook.ts';
import { fromMemory } from '../rules/sources.ts';
import type { Climate } from '../season.ts';
import type { Taken } from './given-or.ts';
import { middleOfMonth, radiationAboveAirMj } from './sunshine.ts';

export const FAO_56_SUN: Source = fromMemory('FAO-56, Allen et al. 1998, eqs 21-25 and 52');

/** Turns radiation in MJ per m2 into the mm of water that it evaporates (FAO-56 eq. 20). */
const MM_FROM_MJ = 0.408;
/** Turns degrees C into the scale of the equation. */
const HARGREAVES_SHIFT_C = 17.8;

/**
 * Reference evaporation in mm a day by Hargreaves (FAO-56 eq. 52), from the usual lowest and highest temperature of a day in
 * C, and the radiation over the air in MJ; never below 0. Temperatures that are turned round give 0.
 */
export function hargreavesMm(book: Rulebook, leastC: number, mostC: number, radiationMj: number): number {
  const warmth = Math.max(0, (leastC + mostC) / 2 + HARGREAVES_SHIFT_C);
  const range = Math.sqrt(Math.max(0, mostC - leastC));
  return figure(book, 'hargreaves.factor') * MM_FROM_MJ * radiationMj * warmth * range;
}

/** How the reference evaporation was found. */
export type EtoBy = 'given' | 'hargreaves' | 'usual';

export interface MonthEto extends Taken {
  readonly by: EtoBy;
}

/**
 * Reference evaporation of a month (January 1) in mm a day: as the place gives it; by Hargreaves where it gives its latitude
 * and temperatures; else what is usual. The usual figure is of open water, so it is divided by what that has more.
 */
export function monthEto(
  book: Rulebook,
  climate: Omit<Climate, 'source'> | undefined,
  month: number,
): MonthEto {
  const at = month - 1;
  const given = climate?.etoMmPerDay?.[at];
  if (given !== undefined) return { value: given, figures: [], by: 'given' };
  const [least, most] = [climate?.minTemperatureC?.[at], climate?.maxTemperatureC?.[at]];
  if (climate?.latitude !== undefined && least !== undefined && most !== undefined) {
    const radiation = radiationAboveAirMj(climate.latitude, middleOfMonth(month));
    return {
      value: hargreavesMm(book, least, most, radiation),
      figures: ['hargreaves.factor'],
      by: 'hargreaves',
    };
  }
  const [usual, openWater] = ['evaporation.usual', 'evaporation.open-water'];
  return { value: figure(book, usual) / figure(book, openWater), figures: [usual, openWater], by: 'usual' };
}

/** The figures of `effectiveRainMm`. */
export const EFFECTIVE_RAIN_FIGURES = [
  'effective-rain.much.share',
  'effective-rain.much.lost',
  'effective-rain.little.share',
  'effective-rain.little.lost',
] as const;

/**
 * Of a month's rain in mm, what a crop can use: 0.8 P - 25 of more than 75 mm, else 0.6 P - 10, never below 0 (FAO Training
 * Manual 3). The larger of the two is the same rule, as they meet at 75 mm, and keeps more rain from being worth less.
 */
export function effectiveRainMm(book: Rulebook, rainMm: number): number {
  const [muchShare, muchLost, littleShare, littleLost] = EFFECTIVE_RAIN_FIGURES.map((key) =>
    figure(book, key),
  );
  const much = (muchShare ?? 0) * rainMm - (muchLost ?? 0);
  const little = (littleShare ?? 0) * rainMm - (littleLost ?? 0);
  return Math.max(0, much, little);
}
