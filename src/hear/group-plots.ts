/** Joins plot numbers and labels into lists ("plots 1, 2 and 5", "1-3", "all"); says when they cannot be known. */
import { isSlight } from './beside.ts';
import { means, type Node, type PlotsSaid, senseOf } from './sense.ts';

interface Item {
  readonly ids: readonly string[];
  readonly next: number;
  readonly puzzle?: boolean;
}

const LONGEST_RANGE = 40;
/** A larger number without the word for plot is a year or an amount. */
const LARGEST_BARE = 999;

const plot = (node: Node | undefined, value: string) => means(node, 'plot', value);
const isPlotWord = (node: Node | undefined) => plot(node, 'one') || plot(node, 'many');
const isFiller = (node: Node | undefined) =>
  node !== undefined &&
  node.mark === undefined &&
  node.senses.some((s) => s.role === 'filler' || s.role === 'article');

/** "5.0" is no plot. */
const isDotted = (node: Node) => /\d\.\d/.test(node.raw);

function number(node: Node | undefined): number | null {
  const value = node?.value;
  if (value === undefined || !Number.isInteger(value) || isDotted(node!)) return null;
  // "নয়" is nine and "is not".
  return senseOf(node, 'number') && !means(node, 'mark', 'not') ? Math.abs(value) : null;
}

/** A letter after the word for plot ("plot B"), in capitals or not the article. */
function letter(node: Node | undefined): string | null {
  if (!node || !/^\p{L}$/u.test(node.raw)) return null;
  return node.strange || node.raw === node.raw.toUpperCase() ? node.raw.toUpperCase() : null;
}

/** One number, label or range, beginning at `at`. */
function item(nodes: readonly Node[], at: number, named: boolean): Item | null {
  const node = nodes[at];
  if (node?.label) return { ids: [node.label], next: at + 1 };
  const lone =
    !named && isFiller(node) && !(means(nodes[at + 1], 'join', 'and') && number(nodes[at + 2]) !== null);
  const value = lone ? null : number(node);
  const first = value !== null && !named && value > LARGEST_BARE ? null : value;
  if (first === null) {
    const slashed = named && node?.parts?.length === 2 ? node.parts.map(String) : null;
    if (slashed) return { ids: slashed, next: at + 1 };
    const name = named ? letter(node) : null;
    return name ? { ids: [name], next: at + 1 } : null;
  }
  const joint = nodes[at + 1];
  const dash = joint?.mark === '-' && (joint.glued || named) ? true : means(joint, 'join', 'to');
  const second = at + 2 + (named && isPlotWord(nodes[at + 2]) ? 1 : 0);
  const last = dash ? number(nodes[second]) : null;
  if (first === 0) return { ids: [], next: at + 1, puzzle: true };
  if (last === null || !notCounted(nodes, second + 1)) return { ids: [String(first)], next: at + 1 };
  const next = second + 1;
  if (last <= first || last - first > LONGEST_RANGE) return { ids: [], next, puzzle: true };
  return { ids: Array.from({ length: last - first + 1 }, (_, i) => String(first + i)), next };
}

/** False when the number before counts something ("3 men", "2 plots"). */
function notCounted(nodes: readonly Node[], after: number): boolean {
  const node = nodes[after];
  if (plot(node, 'many')) return false;
  return !(plot(node, 'one') && number(nodes[after + 1]) === null && !nodes[after + 1]?.label);
}

/** The words before a plot's number: "plot", "plot no.", "plots:"; how many, and whether the plot word is there. */
function opening(nodes: readonly Node[], at: number): { length: number; named: boolean; many: boolean } {
  let i = at;
  const named = isPlotWord(nodes[i]);
  const many = plot(nodes[i], 'many');
  if (named) i++;
  while (
    plot(nodes[i], 'number') ||
    (i > at && (nodes[i]?.mark === '#' || nodes[i]?.mark === ':' || nodes[i]?.mark === '.'))
  ) {
    if (number(nodes[i + 1]) === null && !plot(nodes[i + 1], 'number') && nodes[i + 1]?.mark === undefined)
      break;
    i++;
  }
  if (nodes[i]?.mark === '#') i++;
  return { length: i - at, named: named || i > at, many };
}

/** Where the next item of a list begins, past "," and "and"; -1 when the list ends. */
function nextItem(nodes: readonly Node[], at: number): number {
  let i = at;
  while (nodes[i]?.mark === ',' || means(nodes[i], 'join', 'and') || '&+/'.includes(nodes[i]?.mark ?? 'none'))
    i++;
  const joined = i > at;
  const { length, named } = opening(nodes, i);
  if (!joined && (named ? !isPlotWord(nodes[i]) : length > 0)) return -1;
  const start = i + length;
  return item(nodes, start, named) && notCounted(nodes, start + 1) ? i : -1;
}

/** "plots 1 and 2 both ploughed", "1, 2 and 5 were all ploughed": the list itself, unless plots follow. */
const isAllOfThem = (nodes: readonly Node[], at: number): boolean =>
  plot(nodes[at], 'all') && !senseOf(nodes[at + 1], 'plot') && number(nodes[at + 1]) === null;
const isUnread = (node: Node | undefined) => node?.strange === true && node.raw.length > 2;

interface List {
  readonly plots: PlotsSaid;
  readonly next: number;
}

function list(nodes: readonly Node[], at: number): List | null {
  const head = opening(nodes, at);
  let named = head.named;
  let found = item(nodes, at + head.length, named);
  if (!found || (!named && !notCounted(nodes, found.next))) return null;
  const ids = [...found.ids];
  // "seed of saro 5": a number right behind a word that is not known may be part of a name.
  let puzzle = found.puzzle ?? isUnread(nodes[at + head.length - 1]);
  let lastNamedAt: number | undefined;
  let end = found.next;
  for (let i = nextItem(nodes, end); i >= 0; i = nextItem(nodes, end)) {
    const open = opening(nodes, i);
    if (open.named) lastNamedAt = ids.length;
    puzzle ||= open.named && !named && i === end;
    named ||= open.named;
    found = item(nodes, i + open.length, named)!;
    puzzle ||= found.puzzle ?? false;
    ids.push(...found.ids);
    end = found.next;
  }
  const verb = isSlight(nodes[end]) ? 1 : 0;
  if (ids.length > 1 && isAllOfThem(nodes, end + verb)) end += verb + 1;
  puzzle ||= ids.length === 1 && nodes.slice(at, end).some((node) => plot(node, 'counted'));
  const plots = { ids: [...new Set(ids)], named, puzzle, ...(head.many && { many: true }) };
  return { plots: lastNamedAt === undefined ? plots : { ...plots, lastNamedAt }, next: end };
}

/** "seedlings", "bunds", "bunds plot 1", but not "rice plots". */
function isThing(nodes: readonly Node[], at: number): boolean {
  const roles = ['lossThing', 'loss', 'thing'] as const;
  const ofPlots = isPlotWord(nodes[at + 1]) && number(nodes[at + 2]) === null;
  return !ofPlots && roles.some((role) => senseOf(nodes[at], role));
}

/** "all", "all plots", "both", "all my 3 plots"; "all of plot 3" is plot 3, "all the rice", "all bunds" no plot. */
function everything(nodes: readonly Node[], at: number): List | null {
  if (!plot(nodes[at], 'all')) return null;
  const isOther = (i: number) => !plot(nodes[at], 'every') && isThing(nodes, i);
  let i = at + 1;
  while (!isOther(i) && (isFiller(nodes[i]) || means(nodes[i], 'date', 'of'))) i++;
  if (isOther(i)) return null;
  const named = list(nodes, i);
  if (named?.plots.named) return named;
  const count = number(nodes[i]) !== null;
  const many = isPlotWord(nodes[i + (count ? 1 : 0)]);
  if (count && !many) return { plots: { ids: [], named: true, puzzle: true }, next: i + 1 };
  return { plots: { ids: ['all'], named: true }, next: many ? i + (count ? 2 : 1) : at + 1 };
}

/** "3 plots", "one plot", "the other plot", "except 3", "2nd plot". */
function special(nodes: readonly Node[], at: number): List | null {
  const node = nodes[at];
  const puzzle = { ids: [], named: true, puzzle: true };
  if (plot(node, 'except') || plot(node, 'other')) {
    let next = at + 1;
    const rest = list(nodes, next) ?? (isPlotWord(nodes[next]) ? { next: next + 1 } : null);
    if (rest) next = rest.next;
    return { plots: puzzle, next };
  }
  // "shamba la kwnaza": the word for plot leads to a number that is not understood.
  if (isPlotWord(node) && plot(nodes[at + 1], 'number') && isUnread(nodes[at + 2]))
    return { plots: puzzle, next: at + 3 };
  if (node?.value === undefined) return null;
  const ended = senseOf(nodes[at + 1], 'ending') && nodes[at + 1]?.glued ? 1 : 0;
  if (!isPlotWord(nodes[at + 1 + ended])) return null;
  if (ended || senseOf(node, 'ordinal'))
    return { plots: { ids: [String(node.value)], named: true }, next: at + 2 + ended };
  return notCounted(nodes, at + 1) ? null : { plots: puzzle, next: at + 2 };
}

function asNode(nodes: readonly Node[], plots: PlotsSaid, before: Node | undefined): Node {
  const [first, last] = [nodes[0]!, nodes.at(-1)!];
  const raw = nodes.map((one) => one.raw).join(' ');
  const maybeDay = means(before, 'date', 'on') && !plots.named && plots.ids.length === 1;
  const said = maybeDay ? { ...plots, maybeDay } : plots;
  return { senses: [], from: first.from, to: last.to, raw, glued: first.glued, plots: said };
}

const mayBegin = (node: Node) =>
  node.value !== undefined ||
  node.label !== undefined ||
  node.mark === '#' ||
  senseOf(node, 'plot') !== undefined;

/** The nodes with every list of plots as one node; a plot word alone ("my plot") becomes a filler. */
export function groupPlots(nodes: readonly Node[]): Node[] {
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; ) {
    const found = mayBegin(nodes[at]!)
      ? (everything(nodes, at) ?? special(nodes, at) ?? list(nodes, at))
      : null;
    out.push(found ? asNode(nodes.slice(at, found.next), found.plots, out.at(-1)) : nodes[at]!);
    at = found?.next ?? at + 1;
  }
  return out;
}
