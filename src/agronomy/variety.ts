/** Days that hang on the variety: best seedling age, sowing to harvest, sowing to panicle initiation. */
import { type Bound, figure, type Quantity, type Rulebook } from './rulebook.ts';

/** Best age in days of a seedling at planting. `seedlingAge(book, 120)` is 20. */
export function seedlingAge(book: Rulebook, varietyDays: number): number {
  if (varietyDays <= figure(book, 'variety.short-to')) return figure(book, 'seedling-age.short');
  if (varietyDays <= figure(book, 'variety.medium-to')) return figure(book, 'seedling-age.medium');
  return figure(book, 'seedling-age.long');
}

/** Days from sowing to harvest of a transplanted crop: the variety's own days and the shock of transplanting. */
export function maturityDays(book: Rulebook, varietyDays: number): number {
  return varietyDays + figure(book, 'transplant-shock');
}

function quantity(book: Rulebook, of: Quantity, varietyDays: number): number {
  switch (of) {
    case 'seedling-age':
      return seedlingAge(book, varietyDays);
    case 'maturity':
      return maturityDays(book, varietyDays);
    case 'variety':
      return varietyDays;
    case 'panicle-direct':
      return varietyDays - figure(book, 'panicle-before-maturity');
    case 'panicle-initiation':
      return maturityDays(book, varietyDays) - figure(book, 'panicle-before-maturity');
  }
}

/** A bound in whole days for this variety; null means none. */
export function boundDays(book: Rulebook, bound: Bound, varietyDays: number): number | null {
  if (bound === null || typeof bound === 'number') return bound;
  const days = quantity(book, bound.of, varietyDays) + bound.plus;
  return bound.atLeast === undefined ? days : Math.max(days, bound.atLeast);
}

/** More seedlings a hill for old seedlings: one for each full week past the best age. */
export function extraSeedlings(book: Rulebook, ageDays: number, varietyDays: number): number {
  const weeks = Math.floor((ageDays - seedlingAge(book, varietyDays)) / 7);
  return Math.max(0, weeks) * figure(book, 'old-seedlings.extra-per-week');
}
