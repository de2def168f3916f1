/** Joins numbers with their units: depths, heights, spots, amounts. A number with a unit is never a plot's number. */
import type { Measures } from '../agronomy/season.ts';
import { isSlight } from './beside.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, type Sense, senseOf } from './sense.ts';
import { speaksOfAmounts, unitOf } from './unit-of.ts';

interface Grouped {
  readonly measures: Measures | null;
  readonly length: number;
  /** An area is a part of a plot, unless all else says that it is done. */
  readonly part?: true;
}

interface Setting {
  readonly lexicon: Lexicon;
  /** Numbers in a row are heights of spots only where levelling is spoken of. */
  readonly levelling: boolean;
  /** What a word means that names a container and a piece of land. */
  readonly kind: 'amount' | 'area';
}

type Pattern = (nodes: readonly Node[], at: number, setting: Setting) => Grouped | null;

const measure = (node: Node | undefined, value: string) => means(node, 'measure', value);
const isNumber = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && (senseOf(node, 'number') !== undefined || node.senses.length === 0);
const tenth = (value: number) => Math.round(value * 10) / 10;

/** "10 to 12 cm", "10-12cm": a range is not one depth, so it is left out; "plot 3 to 12 cm" is none. */
const range: Pattern = (nodes, at, { lexicon }) => {
  const dash =
    nodes[at + 1]?.mark === '-' || means(nodes[at + 1], 'join', 'to') || means(nodes[at + 1], 'join', 'or');
  if (!isNumber(nodes[at]) || !dash || !isNumber(nodes[at + 2]) || !unitOf(nodes[at + 3], lexicon))
    return null;
  if (senseOf(nodes[at - 1], 'plot')) return null;
  const deep = measure(nodes[at + 4], 'deep') || measure(nodes[at + 4], 'high') ? 1 : 0;
  return { measures: null, length: 4 + deep };
};

/** "spots 5 4 6 5", "5, 4, 6 and 5 cm": at least three numbers in a row. */
const spots: Pattern = (nodes, at, { lexicon, levelling }) => {
  const named = measure(nodes[at], 'spots');
  if (!named && (!levelling || senseOf(nodes[at - 1], 'plot'))) return null;
  let i = at + (named ? 1 : 0);
  const values: number[] = [];
  while (isNumber(nodes[i]) || (values.length > 0 && isNumber(nodes[i + 1]) && isSeparator(nodes[i]))) {
    const node = nodes[i];
    if (means(node, 'join', 'and') && !unitOf(nodes[i + 2], lexicon)) return null;
    if (isNumber(node)) values.push(node.value);
    i++;
    if (unitOf(nodes[i], lexicon)?.kind === 'length' && (isNumber(nodes[i + 1]) || isSeparator(nodes[i + 1])))
      i++;
  }
  const unit = unitOf(nodes[i], lexicon);
  const long = unit?.kind === 'length' || (unit === null && unitOf(nodes[i - 1], lexicon)?.kind === 'length');
  if (values.length < (named ? 1 : 3) || !(named || long)) return null;
  const factor = unit?.kind === 'length' ? unit.factor : 1;
  const length = i - at + (unit?.kind === 'length' ? 1 : 0);
  return { measures: { spotsCm: values.map((value) => tenth(value * factor)) }, length };
};

const isLevelling = (nodes: readonly Node[]) =>
  nodes.some((node) => means(node, 'act', 'level') || means(node, 'act', 'rough-level'));

const isSeparator = (node: Node | undefined) =>
  node?.mark === ',' || node?.mark === ':' || means(node, 'join', 'and');

function lengthMeasure(value: number, high: boolean): Measures {
  return high ? { heightCm: value } : { depthCm: value };
}

/** "seedlings of 20 cm", "seedlings about 20 cm". */
function isOfTall(nodes: readonly Node[], at: number): boolean {
  let i = at - 1;
  while (isSlight(nodes[i]) || means(nodes[i], 'date', 'of')) i--;
  return measure(nodes[i], 'tall');
}

/** "and a half" behind a unit: how much more, and how many words that is. */
function halfAfter(nodes: readonly Node[], at: number): { value: number; length: number } {
  const skip = senseOf(nodes[at + 1], 'article') && !isNumber(nodes[at + 1]) ? 2 : 1;
  const part = nodes[at + skip];
  if (!means(nodes[at], 'join', 'and') || !isNumber(part) || part.value >= 1) return { value: 0, length: 0 };
  return { value: part.value, length: skip + 1 };
}

/** "of 50 kg" behind "2 bags": what one holds is no amount of its own; how many words that is. */
function sizeAfter(nodes: readonly Node[], at: number, lexicon: Lexicon): number {
  const sized = means(nodes[at], 'date', 'of') && isNumber(nodes[at + 1]);
  return sized && unitOf(nodes[at + 2], lexicon)?.kind === 'amount' ? 3 : 0;
}

/** "12 cm", "12cm deep", "5 inches", "knee deep" is no figure. */
const withUnit: Pattern = (nodes, at, { lexicon, kind }) => {
  const number = nodes[at];
  const half = senseOf(nodes[at + 1], 'article') ? 1 : 0;
  const unit = unitOf(nodes[at + 1 + half], lexicon, kind);
  if (!isNumber(number) || !unit || (half && number.value >= 1) || senseOf(nodes[at - 1], 'plot'))
    return null;
  const end = at + 2 + half;
  const tail = measure(nodes[end], 'deep') || measure(nodes[end], 'high') ? 1 : 0;
  const length = end - at + tail;
  const value = Math.abs(number.value);
  if (unit.kind === 'length') {
    const high = measure(nodes[end], 'high') || measure(nodes[at - 1], 'high') || isOfTall(nodes, at);
    return { measures: lengthMeasure(tenth(value * unit.factor), high), length };
  }
  if (unit.kind === 'amount') {
    const more = halfAfter(nodes, end);
    const amount = { value: value + more.value, unit: unit.name };
    const next = end + more.length;
    return { measures: { amount }, length: next + sizeAfter(nodes, next, lexicon) - at };
  }
  if (unit.kind === 'area') return { measures: { amount: { value, unit: unit.name } }, length, part: true };
  return { measures: null, length };
};

/** "1 and a half acres". */
const mixed: Pattern = (nodes, at, setting) => {
  const [whole, joint] = [nodes[at], nodes[at + 1]];
  const skip = senseOf(nodes[at + 2], 'article') ? 3 : 2;
  const rest = nodes[at + skip];
  if (!isNumber(whole) || !isNumber(rest) || rest.value >= 1 || !means(joint, 'join', 'and')) return null;
  if (senseOf(nodes[at - 1], 'plot')) return null;
  const both = { ...rest, value: whole.value + rest.value };
  const found = withUnit([both, ...nodes.slice(at + skip + 1)], 0, setting);
  return found && { ...found, length: found.length + skip };
};

/** "12 deep", "depth 12": centimetres are understood. */
const bareDepth: Pattern = (nodes, at) => {
  const [first, second] = [nodes[at], nodes[at + 1]];
  // "1 depth 12": the figure follows; the number before is another.
  if (isNumber(first) && (measure(second, 'deep') || measure(second, 'high')) && !isNumber(nodes[at + 2])) {
    return { measures: lengthMeasure(first.value, measure(second, 'high')), length: 2 };
  }
  if (!measure(first, 'deep') && !measure(first, 'high')) return null;
  const skip = second?.mark === ':' || means(second, 'date', 'of') ? 2 : 1;
  const number = nodes[at + skip];
  if (!isNumber(number) || senseOf(nodes[at + skip + 1], 'unit')) return null;
  return { measures: lengthMeasure(number.value, measure(first, 'high')), length: skip + 1 };
};

const PATTERNS: readonly Pattern[] = [range, spots, mixed, withUnit, bareDepth];

const UNCOUNTED: readonly Sense[] = [{ role: 'filler', value: 'filler' }];
const OUR_HANDS: readonly Sense[] = [{ role: 'mark', value: 'ours' }];

/** "labourers 6": counted, they still are the grower's own hands. */
const areOurs = (nodes: readonly Node[]) => nodes.some((node) => means(node, 'mark', 'ours'));

function join(nodes: readonly Node[], { measures, part }: Grouped): Node {
  const [first, last] = [nodes[0]!, nodes.at(-1)!];
  const raw = nodes.map((node) => node.raw).join(' ');
  const base = { from: first.from, to: last.to, raw, glued: first.glued };
  if (!measures) return { ...base, senses: areOurs(nodes) ? OUR_HANDS : UNCOUNTED };
  return { ...base, senses: part ? [{ role: 'stage', value: 'partly' }] : [], measures };
}

/** The nodes with every measure as one node; hours and head counts become fillers. */
export function groupMeasures(nodes: readonly Node[], lexicon: Lexicon): Node[] {
  const kind = speaksOfAmounts(nodes, lexicon) ? 'amount' : 'area';
  const setting: Setting = { lexicon, levelling: isLevelling(nodes), kind };
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; ) {
    let grouped: Grouped | null = null;
    for (const pattern of isNumber(nodes[at]) || senseOf(nodes[at], 'measure') ? PATTERNS : []) {
      grouped = pattern(nodes, at, setting);
      if (grouped) break;
    }
    out.push(grouped ? join(nodes.slice(at, at + grouped.length), grouped) : nodes[at]!);
    at += grouped?.length ?? 1;
  }
  return out;
}
