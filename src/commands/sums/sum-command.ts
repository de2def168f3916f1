/** What a sum of the command line is: how it is called, what it reads and gives, and what it says when it refuses. */
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { Founded, Refusal } from '../../agronomy/sums/sum.ts';

/** Inputs and results by their names with units, and what they are founded on: what is printed. */
export type SumResult = Founded;

export interface SumCommand {
  /** What follows the name, such as "--area HA DEPTH_CM ...". */
  readonly usage: string;
  /** What a refusal means, by its short name; the offending value is put before it. Those of COMMON_REFUSALS need none. */
  readonly refusals: Readonly<Record<string, string>>;
  readonly run: (args: readonly string[], book: Rulebook) => SumResult | Refusal;
}

/** Refusals that many sums share, in words. */
export const COMMON_REFUSALS: Readonly<Record<string, string>> = {
  'not-a-number': 'is not a number',
  'numbers-missing': 'but this sum needs numbers',
  'area-zero': 'ha is no area: it must be more than 0',
  'area-over': 'ha is too large for one plot',
  'option-missing': 'is missing',
  'option-unreadable': 'cannot be read',
  'option-unknown': '',
  'option-twice': 'is there twice',
  'evaporation-range': 'mm a day: no place has such evaporation',
  'percolation-range': 'mm a day: no puddled plot seeps so',
  'word-left': 'has no meaning here',
  'variety-days': 'days: no variety of rice takes so few or so many, or parts of a day',
};
