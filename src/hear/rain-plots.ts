/** Tells plots from bare amounts in a text about rain: "20 plot 2", "plot 2 20", "25 plots 1 and 2". */
import { means, type Node, senseOf } from './sense.ts';

const isNumber = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && senseOf(node, 'number') !== undefined;
const isMany = (node: Node | undefined) => means(node, 'plot', 'many');
const isPlotWord = (node: Node | undefined) => isMany(node) || means(node, 'plot', 'one');
const isAll = (node: Node | undefined) => means(node, 'plot', 'all');
const LISTING = [',', '&', '+', '/', '-'];
const isListing = (node: Node | undefined) =>
  LISTING.includes(node?.mark ?? '') || means(node, 'join', 'and') || means(node, 'join', 'to');

/** A plot word with the numbers behind it. */
interface Run {
  readonly word: number;
  /** Where its numbers stand; and which of them no "," or "and" or plot word parts from the one before. */
  readonly numbers: readonly number[];
  readonly close: readonly number[];
}

/** Another name of a plot than a number: "A17", or a letter behind the plot word. */
const isName = (nodes: readonly Node[], at: number) =>
  nodes[at]?.label !== undefined || (isPlotWord(nodes[at - 1]) && /^\p{L}$/u.test(nodes[at]?.raw ?? ''));

function runFrom(nodes: readonly Node[], word: number): Run {
  const numbers: number[] = [];
  const close: number[] = [];
  for (let at = word + 1; ; ) {
    const listed = numbers.length > 0 && (isListing(nodes[at]) || isPlotWord(nodes[at]));
    while (listed && (isListing(nodes[at]) || isPlotWord(nodes[at]))) at++;
    if (!isNumber(nodes[at]) && !isName(nodes, at)) return { word, numbers, close };
    if (numbers.length > 0 && !listed) close.push(at);
    numbers.push(at);
    at++;
  }
}

const valueAt = (nodes: readonly Node[], at: number | undefined) =>
  at === undefined ? undefined : nodes[at]?.value;

/** "plots 1 2 3": each the next. */
const countsOn = (nodes: readonly Node[], { numbers, close }: Run) =>
  close.every((at) => valueAt(nodes, at) === valueAt(nodes, numbers[numbers.indexOf(at) - 1])! + 1);

/** "plot 2, 20", "plot 2 - 20": a list, or a plot and its amount; not "plot 1, plot 2", "plot 1-3". */
const isLooseMark = (nodes: readonly Node[], at: number) =>
  !isPlotWord(nodes[at + 1]) && (nodes[at]?.mark === ',' || (nodes[at]?.mark === '-' && !nodes[at]?.glued));

/** Where the amount stands that ends a run: "plot 2 20", "plots 1 and 2 20"; null for none, 'doubt' when it may be a plot. */
function amountBehind(nodes: readonly Node[], run: Run, amountKnown: boolean): number | 'doubt' | null {
  const { numbers, close, word } = run;
  const many = isMany(nodes[word]);
  const [only, second] = close;
  if (!many && !amountKnown && numbers.length === 2 && isLooseMark(nodes, numbers[0]! + 1)) return 'doubt';
  if (only === undefined || (many && (amountKnown || countsOn(nodes, run)))) return null;
  if (amountKnown) return countsOn(nodes, run) ? null : 'doubt';
  const last = second === undefined && only === numbers.at(-1);
  return last && !countsOn(nodes, run) && (!many || numbers.length > 2) ? only : 'doubt';
}

const SEPARATOR = { senses: [], raw: ';', glued: false, mark: ';' } as const;

/** "25 plots 1 and 2": the amount stands before the plot word; "2 plots 1 and 2", "one plot 3" may count them: a doubt. */
function amountBefore(nodes: readonly Node[], { word, numbers }: Run): 'doubt' | boolean {
  const comma = nodes[word - 1]?.mark === ',';
  const before = nodes[word - (comma ? 2 : 1)];
  if (numbers.length === 0) return false;
  if (isListing(nodes[word - 1]) && !comma && isNumber(nodes[word - 2])) return 'doubt';
  if (!isNumber(before)) return false;
  const spanned = valueAt(nodes, numbers.at(-1))! - valueAt(nodes, numbers[0])! + 1;
  const counts = before.value === numbers.length || before.value === spanned;
  return counts && (isMany(nodes[word]) || !/\d/.test(before.raw)) ? 'doubt' : true;
}

/** The nodes with a mark wherever an amount meets a list of plots; null when a number could be either. */
export function partPlots(nodes: readonly Node[], amountKnown: boolean): readonly Node[] | null {
  const cuts = new Set<number>();
  const first = nodes.findIndex(isPlotWord);
  if (first < 0) return nodes;
  if (isAll(nodes[first - 1]) && isNumber(nodes[first + 1])) return null;
  const run = runFrom(nodes, first);
  const before = amountBefore(nodes, run);
  const loose = nodes.slice(0, first).some(isNumber);
  const behind = amountBehind(nodes, run, amountKnown || loose);
  if (before === 'doubt' || behind === 'doubt') return null;
  if (before) cuts.add(first);
  if (behind !== null) cuts.add(behind);
  return nodes.flatMap((node, at) =>
    cuts.has(at) ? [{ ...SEPARATOR, from: node.from, to: node.from }, node] : [node],
  );
}
