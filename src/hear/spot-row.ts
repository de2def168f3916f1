/** Heights of spots behind a levelling report that names its plot ("levelled plot 3: 4 6 9 12 5"): a row that is no list of plots. */
import { joinMixed } from './decimals.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, senseOf } from './sense.ts';

interface Row {
  readonly values: readonly number[];
  readonly length: number;
  readonly doubtful?: true;
}

const FEWEST_SPOTS = 3;
const STRONG = ['.', ';', '\n'];

const isNumber = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && senseOf(node, 'number') !== undefined;

const isSeparator = (node: Node | undefined) => node?.mark === ',' || means(node, 'join', 'and');

/** The numbers from `at` on; with `commas` they may be listed. */
function row(nodes: readonly Node[], at: number, commas: boolean): Row {
  const values: number[] = [];
  let i = at;
  while (isNumber(nodes[i]) || (commas && isSeparator(nodes[i]) && isNumber(nodes[i + 1]))) {
    const node = nodes[i++];
    if (isNumber(node)) values.push(node.value);
  }
  return { values, length: i - at };
}

const rises = (values: readonly number[]) => values.every((value, i) => i === 0 || value > values[i - 1]!);

/** "plot 3", or a bare number at the end ("levelled 3:"), and no other number. */
function namesOnePlot(before: readonly Node[]): boolean {
  const [at, second] = before.flatMap((node, i) => (isNumber(node) ? [i] : []));
  if (at === undefined || second !== undefined) return false;
  return means(before[at - 1], 'plot', 'one') || at === before.length - 1;
}

/**
 * Behind a colon any three numbers are spots; behind another mark they must not rise like a list of plots, or have a unit.
 * Right behind a plot and a comma ("plot 3, 4 6 5") they are `doubtful`.
 */
function rowBehind(nodes: readonly Node[], marked: number, inCm: boolean): Row | null {
  const [before, mark] = [nodes[marked - 1], nodes[marked]!.mark!];
  const colon = mark === ':' && !means(before, 'plot', 'one');
  const found = row(nodes, marked + 1, colon);
  if (found.values.length < FEWEST_SPOTS || !(colon || inCm || !rises(found.values))) return null;
  const listed = isNumber(before) && !colon && !STRONG.includes(mark);
  return listed && !inCm ? { ...found, doubtful: true } : found;
}

/** Where a mark stands before a number, after the verb and one plot; -1 for nowhere. */
function markBefore(nodes: readonly Node[]): number {
  const levelled = nodes.findIndex((node) => means(node, 'act', 'level'));
  const at = nodes.findIndex((node, i) => i > levelled && node.mark !== undefined && isNumber(nodes[i + 1]));
  return levelled >= 0 && at >= 0 && namesOnePlot(nodes.slice(0, at)) ? at : -1;
}

/** "levelled plot 1 4 60 9 12": figures right behind one plot that do not rise are no list of plots; [from, to), or null. */
function unmarked(nodes: readonly Node[]): readonly [number, number] | null {
  const levelled = nodes.findIndex((node) => means(node, 'act', 'level'));
  const plot = nodes.findIndex(isNumber);
  const { values, length } = row(nodes, plot + 1, false);
  const named = means(nodes[plot - 1], 'plot', 'one') || plot === levelled + 1;
  if (levelled < 0 || plot < 0 || !named || values.length < FEWEST_SPOTS || rises(values)) return null;
  return [plot + 1, plot + 1 + length];
}

function join(nodes: readonly Node[], { values, doubtful }: Row): Node {
  const [first, last] = [nodes[0]!, nodes.at(-1)!];
  const raw = nodes.map((node) => node.raw).join(' ');
  const base = { senses: [], from: first.from, to: last.to, raw, glued: first.glued };
  return doubtful
    ? { ...base, plots: { ids: [], named: true, puzzle: true } }
    : { ...base, measures: { spotsCm: values } };
}

/** Such figures as a puzzle: heights, or plots. */
function withoutMark(nodes: readonly Node[]): readonly Node[] {
  const [from, to] = unmarked(nodes) ?? [0, 0];
  if (to === 0) return nodes;
  const doubtful = join(nodes.slice(from, to), { values: [], length: to - from, doubtful: true });
  return [...nodes.slice(0, from), doubtful, ...nodes.slice(to)];
}

/** The nodes with such a row as one measure; days must be joined, plots not yet. Without one, the nodes as they are. */
export function groupSpotRow(given: readonly Node[], lexicon: Lexicon): readonly Node[] {
  const marked = markBefore(given);
  if (marked < 0) return withoutMark(given);
  const nodes = [...given.slice(0, marked + 1), ...joinMixed(given.slice(marked + 1), lexicon)];
  const { length } = row(nodes, marked + 1, true);
  const unit = lexicon.units[senseOf(nodes[marked + 1 + length], 'unit')?.value ?? ''];
  const found = unit && unit.kind !== 'length' ? null : rowBehind(nodes, marked, unit !== undefined);
  if (!found) return given;
  const end = marked + 1 + found.length + (unit && found.length === length ? 1 : 0);
  const values = found.values.map((value) => Math.round(value * (unit?.factor ?? 1) * 10) / 10);
  const spots = join(nodes.slice(marked + 1, end), { ...found, values });
  return [...nodes.slice(0, marked + 1), spots, ...nodes.slice(end)];
}
