/** Days that rules take from the crop itself: its variety, its nursery, the warmth, and how level its plot is. */
import type { Day } from '../plan/day.ts';
import { byDay, standingReports } from './facts.ts';
import { figure, type Rulebook } from './rulebook.ts';
import type { Season, Way } from './season.ts';
import { monthAt } from './working-days.ts';

export interface CropDays {
  readonly varietyDays: number;
  /** Best age of a seedling at planting. */
  readonly seedlingAge: number;
  /** Age at which seedlings are lost. */
  readonly seedlingLimit: number;
  /** Age at which a seedling stands clear of the water over the lowest spot; null on a level plot. */
  readonly standingClear: number | null;
}

/** The days of a crop whose nursery was, or will be, sown on a day. */
export function cropDays(book: Rulebook, season: Season, sownOn: Day): CropDays {
  const usual = usualCropDays(book, season.varietyDays);
  const monthly = season.climate?.meanTemperatureC;
  const grown = (days: number) => (monthly ? grownIn(book, days, sownOn, monthly) : days);
  return {
    ...usual,
    seedlingAge: grown(bestAge(book, season.varietyDays, season.way.nursery)),
    seedlingLimit: grown(usual.seedlingLimit),
    standingClear: standingClearAge(book, rangeCm(season)),
  };
}

/** Those of a wet-bed nursery in usual warmth, on a level plot. */
export function usualCropDays(book: Rulebook, varietyDays: number): CropDays {
  return {
    varietyDays,
    seedlingAge: classAge(book, varietyDays),
    seedlingLimit: figure(book, 'seedling-limit'),
    standingClear: null,
  };
}

/** Best age in days of a seedling from this nursery, in usual warmth: a mat is ready sooner than long varieties are in a bed. */
export function bestAge(book: Rulebook, varietyDays: number, nursery: Way['nursery']): number {
  const inBed = classAge(book, varietyDays);
  return nursery === 'mat' ? Math.min(inBed, figure(book, 'seedling-age.mat-to')) : inBed;
}

/** Best age of a wet-bed seedling by the variety's class: 16, 20 or 25 days. */
function classAge(book: Rulebook, varietyDays: number): number {
  if (varietyDays <= figure(book, 'variety.short-to')) return figure(book, 'seedling-age.short');
  if (varietyDays <= figure(book, 'variety.medium-to')) return figure(book, 'seedling-age.medium');
  return figure(book, 'seedling-age.long');
}

/**
 * Days in which a nursery sown on `sownOn` comes as far as one in usual warmth does in `days`: leaves come by the sum of
 * daily mean temperatures (Yoshida 1981 p. 21: 100 degree-days a leaf). Monthly means in °C, January first.
 */
export function grownIn(book: Rulebook, days: number, sownOn: Day, monthlyC: readonly number[]): number {
  const longest = figure(book, 'seedling-age.longest');
  let left = days * figure(book, 'seedling-age.warmth');
  let age = 0;
  while (left > 1e-9 && age < longest) {
    const { month, end } = monthAt(sownOn + age);
    const warmth = Math.max(0, monthlyC[month] ?? 0);
    const inMonth = Math.min(end - (sownOn + age) + 1, longest - age);
    const needed = warmth === 0 ? inMonth : Math.min(inMonth, Math.ceil(left / warmth - 1e-9));
    left -= warmth * needed;
    age += needed;
  }
  return age;
}

/**
 * How far the highest and the lowest spot differ in the newest levelling report that says it, in cm; null when none does, or when
 * the plot is still being levelled.
 */
export function rangeCm(season: Season): number | null {
  const newest = standingReports(season)
    .filter(({ activity, measures }) => activity === 'level' && (measures?.spotsCm?.length ?? 0) > 1)
    .sort(byDay)
    .at(-1);
  const spots = newest?.stage === 'finished' ? newest.measures?.spotsCm : null;
  return spots ? spreadCm(spots) : null;
}

/** The deepest less the shallowest of some depths in cm: how far the highest and the lowest spot differ. 5.3 to 10.3 is 5. */
export const spreadCm = (spotsCm: readonly number[]): number =>
  Math.round((Math.max(...spotsCm) - Math.min(...spotsCm)) * 1e9) / 1e9;

/**
 * Covering the highest spot puts the whole range (cm) over the lowest: the age in days at which a seedling is taller than
 * that. Null for a plot that is level, or of which no depths are known.
 */
export function standingClearAge(book: Rulebook, range: number | null): number | null {
  if (range === null || range <= figure(book, 'level-range.max')) return null;
  return Math.ceil(range / figure(book, 'seedling-growth') - 1e-9);
}
