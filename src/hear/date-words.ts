/** The words and numbers of which all shapes of days are made. Knows no shape. */
import type { Lexicon } from './lexicon.ts';
import type { Said } from './said-day.ts';
import { means, type Node, senseOf } from './sense.ts';

export interface Grouped {
  readonly said: Said | null;
  readonly length: number;
}

/** What begins at a node: a day or a stretch of time that is none; null when neither does. */
export type Pattern = (nodes: readonly Node[], at: number, lexicon: Lexicon) => Grouped | null;

/** Whether a node is a word of this kind in the list of dates. */
export const word = (node: Node | undefined, value: string) => means(node, 'date', value);
/** A word for plot, other than "all". */
export const isPlotWord = (node: Node | undefined) =>
  senseOf(node, 'plot') !== undefined && !means(node, 'plot', 'all');

/** The number of a node that is whole and not below nought. */
export function wholeNumber(node: Node | undefined): number | null {
  const value = node?.value;
  return value !== undefined && Number.isInteger(value) && value >= 0 ? value : null;
}

/** Nobody puts more of such words in a row. */
const MOST_LEADS = 4;

/** How many nodes from `at` are "on", "the" or "of": words that only lead up to a date. */
export function leadIn(nodes: readonly Node[], at: number, { verbsLast }: Lexicon): number {
  const leads = (node: Node | undefined) =>
    word(node, 'on') ||
    word(node, 'numbered') ||
    (!verbsLast && word(node, 'dayWords')) ||
    senseOf(node, 'article');
  let length = 0;
  while (length < MOST_LEADS && leads(nodes[at + length])) length++;
  return length;
}

export interface DayNumber {
  readonly value: number;
  readonly length: number;
  readonly ordinal: boolean;
  /** With a word behind it that makes it a day ("৬ তারিখে"). */
  readonly worded: boolean;
}

/** A number that may be a day, with its ending ("5th"), and the word that makes it a day where such words stand behind. */
export function dayNumber(nodes: readonly Node[], at: number, { verbsLast }: Lexicon): DayNumber | null {
  const value = wholeNumber(nodes[at]);
  if (value === null) return null;
  const ended = nodes[at + 1]?.glued === true && senseOf(nodes[at + 1], 'ending') !== undefined;
  const last = at + (ended ? 1 : 0);
  const worded = verbsLast && word(nodes[last + 1], 'dayWords');
  const ordinal = ended || worded || senseOf(nodes[at], 'ordinal') !== undefined;
  return { value, length: last - at + (worded ? 2 : 1), ordinal, worded };
}

/** The days in a span ("day", "week"); a month is as long as it is. */
export const spanDays = (node: Node | undefined): number | 'vague' | null => {
  if (word(node, 'day')) return 1;
  if (word(node, 'week')) return 7;
  return word(node, 'month') ? 'vague' : null;
};
