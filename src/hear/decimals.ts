/** Figures with decimals: "12,5 cm" where a comma marks them; with a point and no measure a day ("ploughed 1 5.3"), else a puzzle. */
import type { Lexicon } from './lexicon.ts';
import type { Said } from './said-day.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';

const DOTTED = /^(\d{1,2})\.(\d{1,2})$/;
const PUZZLE: Said = { kind: 'puzzle' };

const isLoose = (node: Node) =>
  node.value !== undefined && /\d\.\d/.test(node.raw) && !node.plots && senseOf(node, 'number') !== undefined;

/** A day and a month, or nothing that can be known. Like a fraction it counts only near today. */
function dottedDay(raw: string, lexicon: Lexicon): Said {
  const found = DOTTED.exec(raw);
  if (!found) return PUZZLE;
  const [a, b] = [Number(found[1]), Number(found[2])];
  const [day, month] = lexicon.monthFirst ? [b, a] : [a, b];
  const maybe = day >= 1 && day <= 31 && month >= 1 && month <= 12;
  return maybe ? { kind: 'date', day, month, year: null, fraction: true } : PUZZLE;
}

/** "plot 5.3" and "1,5.3" are plots that cannot be known; "ploughed 5.3" could be anything. */
function asNode(nodes: readonly Node[], at: number, firstPlots: number, lexicon: Lexicon): Node {
  const node = nodes[at]!;
  const bare = { ...node, senses: [] };
  const [before, earlier] = [nodes[at - 1], nodes[at - 2]];
  const listed = node.glued && before?.mark !== undefined && earlier?.plots !== undefined;
  if (senseOf(before, 'plot') || listed) return { ...bare, plots: { ids: [], named: true, puzzle: true } };
  const behindPlots = firstPlots >= 0 && firstPlots < at;
  return {
    ...bare,
    said: behindPlots || means(before, 'date', 'on') ? dottedDay(node.raw, lexicon) : PUZZLE,
  };
}

/** The nodes with no such figure left over: none is dropped unread. Hours ("at 6.30") stay what they are. */
export function groupDecimals(nodes: readonly Node[], lexicon: Lexicon): Node[] {
  const firstPlots = nodes.findIndex((one) => one.plots);
  return nodes.map((node, at) =>
    isLoose(node) && !means(nodes[at - 1], 'date', 'at') ? asNode(nodes, at, firstPlots, lexicon) : node,
  );
}

const FIGURES = /^\d+$/;
const WORK: readonly Role[] = ['act', 'stage'];

/** Whether "12,5" at `at` is one number: a unit follows, or it begins with 0; and no list runs through it. */
function isDecimal(nodes: readonly Node[], at: number): boolean {
  const [whole, comma, part] = [nodes[at], nodes[at + 1], nodes[at + 2]];
  if (comma?.mark !== ',' || !comma.glued || !part?.glued || !whole) return false;
  if (!FIGURES.test(whole.raw) || !FIGURES.test(part.raw)) return false;
  const [before, after] = [nodes[at - 1], nodes[at + 3]];
  if (senseOf(before, 'plot') || (before?.mark === ',' && whole.glued)) return false;
  if (after?.mark === ',' && after.glued && nodes[at + 4]?.glued) return false;
  return whole.raw === '0' || senseOf(after, 'unit') !== undefined;
}

/** "ploughed 3,5 cm": 3.5 cm, or 5 cm on plot 3; and nobody measures "3,12 cm". */
function isPuzzle(nodes: readonly Node[], at: number, lexicon: Lexicon): boolean {
  if (nodes[at]!.raw === '0') return false;
  const unit = lexicon.units[senseOf(nodes[at + 3], 'unit')?.value ?? ''];
  const fine = unit?.kind === 'length' && nodes[at + 2]!.raw.length > 1;
  return fine || WORK.some((role) => senseOf(nodes[at - 1], role));
}

/** The nodes with "12,5" as one number where the language writes decimals so. */
export function joinDecimals(nodes: readonly Node[], lexicon: Lexicon): readonly Node[] {
  if (!lexicon.decimalComma) return nodes;
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; at++) {
    const node = nodes[at]!;
    if (!isDecimal(nodes, at)) {
      out.push(node);
      continue;
    }
    const raw = `${node.raw}.${nodes[at + 2]!.raw}`;
    const joined = { ...node, raw, to: nodes[at + 2]!.to, value: Number(raw) };
    const { value: _, ...bare } = joined;
    out.push(
      isPuzzle(nodes, at, lexicon)
        ? { ...bare, senses: [], plots: { ids: [], named: true, puzzle: true } }
        : joined,
    );
    at += 2;
  }
  return out;
}

/** Figures from `at` on that are only parted by spaces, and commas that touch both neighbours; where they end. */
function rowEnd(nodes: readonly Node[], at: number): number {
  let end = at;
  while (nodes[end]?.value !== undefined) end += isGluedComma(nodes, end + 1) ? 2 : 1;
  return end;
}

const isGluedComma = (nodes: readonly Node[], at: number): boolean =>
  nodes[at]?.mark === ',' && nodes[at]?.glued === true && nodes[at + 1]?.glued === true;

/** "4,5" at `at`: tenths behind a whole number, and no list runs through it ("4,5,6"). */
function isTenths(nodes: readonly Node[], at: number): boolean {
  const [whole, part] = [nodes[at], nodes[at + 2]];
  if (!isGluedComma(nodes, at + 1) || isGluedComma(nodes, at + 3) || isGluedComma(nodes, at - 1))
    return false;
  return /^\d{1,3}$/.test(whole?.raw ?? '') && /^\d$/.test(part?.raw ?? '');
}

/** The row with each "4,5" as one figure; null where commas may as well part figures. */
function joinRow(row: readonly Node[]): readonly Node[] | null {
  const out: Node[] = [];
  for (let at = 0; at < row.length; at++) {
    const node = row[at]!;
    const part = row[at + 2];
    if (part === undefined || !isTenths(row, at)) {
      if (node.mark !== undefined) return null;
      out.push(node);
      continue;
    }
    const raw = `${node.raw}.${part.raw}`;
    out.push({ ...node, raw, to: part.to, value: Number(raw) });
    at += 2;
  }
  return out;
}

/**
 * Depths in which points and commas both mark decimals ("4,5 6.5 9 12"), in a language whose decimals have points: the nodes with
 * each as one figure. Without a point "4,5" stays two figures, and so it does where a comma stands between others.
 */
export function joinMixed(nodes: readonly Node[], lexicon: Lexicon): readonly Node[] {
  if (lexicon.decimalComma) return nodes;
  const from = nodes.findIndex(({ value }) => value !== undefined);
  const to = from < 0 ? 0 : rowEnd(nodes, from);
  const behind = nodes.slice(to);
  if (to === 0 || behind.some(({ mark, value }) => mark === ',' || value !== undefined)) return nodes;
  const row = nodes.slice(from, to);
  const joined = row.some(({ raw }) => /\d\.\d/.test(raw)) ? joinRow(row) : null;
  return joined === null ? nodes : [...nodes.slice(0, from), ...joined, ...behind];
}
