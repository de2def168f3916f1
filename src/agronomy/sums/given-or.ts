/** A number that was given, or the rulebook's figure in its place, whose name is then told. */
import { figure, type Rulebook } from '../rulebook.ts';

/** A number, and the names of the rulebook's figures that it was made of. */
export interface Taken {
  readonly value: number;
  readonly figures: readonly string[];
}

/** The given number, else the figure of that name. */
export function givenOr(book: Rulebook, given: number | undefined, figureName: string): Taken {
  if (given !== undefined) return { value: given, figures: [] };
  return { value: figure(book, figureName), figures: [figureName] };
}

/** Evaporation of open water in mm a day: 1.1 times the reference evaporation, or what is usual where that is not known. */
export function openWater(book: Rulebook, etoMmPerDay: number | undefined): Taken {
  if (etoMmPerDay === undefined) return givenOr(book, undefined, 'evaporation.usual');
  const factor = 'evaporation.open-water';
  return { value: etoMmPerDay * figure(book, factor), figures: [factor] };
}
