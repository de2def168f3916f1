/** A text read as an answer to a question for a figure, a tool or a language: the contract for joining. */
import type { Way } from '../agronomy/season.ts';

export interface Details {
  /** Every number in the text, in order ("2 plots" is [2]; "half" is [0.5]). */
  readonly numbers: readonly number[];
  /** Areas in hectares, in order: with a unit as said; without one, null. "0.4 ha and 1 acre" is [0.4, 0.4047]. */
  readonly areasHa: readonly (number | null)[];
  /** Depths in cm, where the text tells depths and nothing else ("6", "2 inches", "4 6 9"); [] else. */
  readonly depthsCm: readonly number[];
  /** The means of ploughing named, null when none or more than one. */
  readonly tillage: Way['tillage'] | null;
  /** The language named, as a tag; null when none. */
  readonly language: string | null;
  /** Plots named when the text names nothing else ("3", "plot 3", "1 and 2", "A-17"); ["all"] for all; [] else. */
  readonly plots: readonly string[];
}
