/** The shapes in which a part of the work is said ("half of", "3 quarters", "3/4 of plot 2", "50%"), each as one pattern. */
import type { Day } from '../plan/day.ts';
import type { Lexicon } from './lexicon.ts';
import { findDay } from './said-day.ts';
import { means, type Node, senseOf } from './sense.ts';

export interface Part {
  /** 1 for all of it; 0 or more than 1 for what cannot be. */
  readonly share: number;
  readonly length: number;
}

export interface Setting {
  readonly lexicon: Lexicon;
  readonly today: Day;
  /** A plot with its number stands somewhere in the text. */
  readonly plot: boolean;
}

type Pattern = (nodes: readonly Node[], at: number, setting: Setting) => Part | null;

const SIMPLE_PARTS = 4;
const MOST_PARTS = 10;

const isNumber = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && senseOf(node, 'number') !== undefined;
const isOf = (node: Node | undefined) => means(node, 'date', 'of');

/** True for a word that says work. */
export const isWork = (node: Node | undefined): boolean =>
  senseOf(node, 'act') !== undefined || senseOf(node, 'verb') !== undefined;

/** Nobody puts more of such words in a row. */
const MOST_LINKS = 4;

/** Where the words go on after "of", "the" and the like. */
export function pastOf(nodes: readonly Node[], at: number): number {
  const isLink = (node: Node | undefined) =>
    isOf(node) || (senseOf(node, 'article') && !senseOf(node, 'mark'));
  let i = at;
  while (i < at + MOST_LINKS && isLink(nodes[i])) i++;
  return i;
}

const commonPart = (a: number, b: number): number => (b === 0 ? a : commonPart(b, a % b));

/** The figures of a simple fraction: "3/4", not "4/3", "2/4" or "3/4/27". */
export function fractionOf(node: Node | undefined): { top: number; bottom: number } | null {
  const [top = 0, bottom = 0, third] = node?.parts ?? [];
  if (third !== undefined || !node?.raw.includes('/') || top < 1 || top >= bottom) return null;
  return bottom <= MOST_PARTS && commonPart(bottom, top) === 1 ? { top, bottom } : null;
}

/** "50%", "75 percent". */
const percent: Pattern = (nodes, at) => {
  const number = nodes[at];
  if (!isNumber(number) || !senseOf(nodes[at + 1], 'percent')) return null;
  return { share: number.value / 100, length: 2 };
};

/** "3 quarters", "2 thirds". */
const counted: Pattern = (nodes, at) => {
  const number = nodes[at];
  const parts = senseOf(nodes[at + 1], 'sharePart')?.n;
  if (!isNumber(number) || parts === undefined || senseOf(nodes[at - 1], 'plot')) return null;
  const fits = Number.isInteger(number.value) && number.value > 0 && number.value < parts;
  return fits ? { share: number.value / parts, length: 2 } : null;
};

/** "1 bag and a half": half of what was measured. */
function ofMeasured(nodes: readonly Node[], at: number): boolean {
  const joint = at - (senseOf(nodes[at - 1], 'article') ? 2 : 1);
  const measured = senseOf(nodes[joint - 1], 'unit') !== undefined && isNumber(nodes[joint - 2]);
  return means(nodes[joint], 'join', 'and') && measured && !isOf(nodes[at + 1]);
}

/** "half", "a quarter"; "2 and half plots" counts plots. */
const named: Pattern = (nodes, at) => {
  const share = senseOf(nodes[at], 'share')?.n;
  if (share === undefined || ofMeasured(nodes, at)) return null;
  const mixed = means(nodes[at - 1], 'join', 'and') && isNumber(nodes[at - 2]);
  const next = pastOf(nodes, at + 1);
  const counts = mixed && senseOf(nodes[next], 'plot') !== undefined && nodes[next + 1]?.value === undefined;
  return counts ? null : { share, length: 1 };
};

/** "3/4 of plot 2", "0.5 of plot 2". */
const ofPlot: Pattern = (nodes, at) => {
  const found = fractionOf(nodes[at]);
  const decimal = isNumber(nodes[at]) && !Number.isInteger(nodes[at].value) ? nodes[at].value : null;
  const share = found ? found.top / found.bottom : decimal;
  const next = nodes[pastOf(nodes, at + 1)];
  if (share === null || share >= 1 || !isOf(nodes[at + 1]) || senseOf(next, 'monthName')) return null;
  return found || senseOf(next, 'plot') ? { share, length: 1 } : null;
};

/** True when a fraction may as well be a day of these weeks ("ploughed 1/3 plot 2" in March). */
function mayBeDay({ top, bottom }: { top: number; bottom: number }, { lexicon, today }: Setting): boolean {
  const [day, month] = lexicon.monthFirst ? [bottom, top] : [top, bottom];
  return !('problem' in findDay({ kind: 'date', day, month, year: null, fraction: true }, true, today));
}

/** "ploughed 3/4 plot 2", "plot 2 3/4 ploughed", "3/4 done": beside the work, with a plot in the text. */
const besideWork: Pattern = (nodes, at, setting) => {
  const found = fractionOf(nodes[at]);
  if (!found || found.bottom > SIMPLE_PARTS || means(nodes[at - 1], 'date', 'on')) return null;
  const beside = isWork(nodes[at + 1]) || isWork(nodes[at - 1]) || means(nodes[at + 1], 'stage', 'finished');
  if (!beside || !setting.plot || mayBeDay(found, setting)) return null;
  return { share: found.top / found.bottom, length: 1 };
};

/** Tried in this order at each node. */
export const SHARE_PATTERNS: readonly Pattern[] = [percent, counted, ofPlot, besideWork, named];
