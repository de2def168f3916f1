/** Shorthand for the tables of single figures. */
import type { Figure, Source } from '../rulebook.ts';

export const figureOf = (value: number, unit: string, ...sources: readonly Source[]): Figure => ({
  value,
  unit,
  sources,
});
