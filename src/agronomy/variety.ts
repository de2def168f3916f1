/** Bounds of rules in whole days, where they hang on the variety; and seedlings that are past their best. */
import { type CropDays, usualCropDays } from './crop-days.ts';
import { type Bound, figure, type Quantity, type Rulebook } from './rulebook.ts';

/** Best age in days of a wet-bed seedling at planting. `seedlingAge(book, 120)` is 20. */
export function seedlingAge(book: Rulebook, varietyDays: number): number {
  return usualCropDays(book, varietyDays).seedlingAge;
}

/** Days from sowing to harvest of a transplanted crop: the variety's own days and the shock of transplanting. */
export function maturityDays(book: Rulebook, varietyDays: number): number {
  return varietyDays + figure(book, 'transplant-shock');
}

function quantity(book: Rulebook, of: Quantity, crop: CropDays): number | null {
  const { varietyDays } = crop;
  switch (of) {
    case 'seedling-age':
      return crop.seedlingAge;
    case 'seedling-limit':
      return crop.seedlingLimit;
    case 'standing-clear':
      return crop.standingClear;
    case 'maturity':
      return maturityDays(book, varietyDays);
    case 'variety':
      return varietyDays;
    case 'panicle-direct':
      return varietyDays - figure(book, 'panicle-before-maturity');
    case 'panicle-initiation':
      return maturityDays(book, varietyDays) - figure(book, 'panicle-before-maturity');
    case 'panicle-to-harvest':
      return figure(book, 'panicle-before-maturity');
  }
}

/** A bound in whole days for this crop, one in usual warmth where none is given; null means none. */
export function boundDays(
  book: Rulebook,
  bound: Bound,
  varietyDays: number,
  crop: CropDays = usualCropDays(book, varietyDays),
): number | null {
  if (bound === null || typeof bound === 'number') return bound;
  const found = quantity(book, bound.of, crop);
  if (found === null) return null;
  const days = found + bound.plus;
  return bound.atLeast === undefined ? days : Math.max(days, bound.atLeast);
}

/** More seedlings a hill for old seedlings: one for each full week past their best age. */
export function extraSeedlings(book: Rulebook, ageDays: number, bestAge: number): number {
  const weeks = Math.floor((ageDays - bestAge) / 7);
  return Math.max(0, weeks) * figure(book, 'old-seedlings.extra-per-week');
}
