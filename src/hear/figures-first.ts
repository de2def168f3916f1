/** In a language that names the unit before its figure ("kilo 50"), sets the figure first, as all later readers expect it. */
import { isStrange } from './beside.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, senseOf } from './sense.ts';
import { DOUBT } from './weigh.ts';

const SPANS = ['day', 'week'];

const isFigure = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && senseOf(node, 'number') !== undefined;

/** A month with a figure behind it is that month of the year, unless it is so long ago. */
const isMonths = (nodes: readonly Node[], at: number) =>
  means(nodes[at], 'date', 'month') &&
  (means(nodes[at + 2], 'date', 'ago') || means(nodes[at + 2], 'date', 'ahead'));

const isUnit = (nodes: readonly Node[], at: number): boolean =>
  senseOf(nodes[at], 'unit') !== undefined ||
  senseOf(nodes[at], 'percent') !== undefined ||
  SPANS.some((span) => means(nodes[at], 'date', span)) ||
  isMonths(nodes, at);

/** "12cm 3": a unit that touches the figure before it is that figure's. */
const isTaken = (nodes: readonly Node[], at: number) => isFigure(nodes[at - 1]) && nodes[at]!.glued;

/** How many nodes "2", "2 and a half" or "10 to 12" takes. */
function figureLength(nodes: readonly Node[], at: number): number {
  const [joint, second] = [nodes[at + 1], nodes[at + 2]];
  if (!isFigure(second) || senseOf(nodes[at + 3], 'unit')) return 1;
  const half = means(joint, 'join', 'and') && second.value < 1;
  return half || joint?.mark === '-' || means(joint, 'join', 'to') ? 3 : 1;
}

/** "ekari mbioi", "kg ngai": an area or an amount whose figure is not understood may be a part of the plot, or be asked for. */
const isMeasured = (node: Node, { units }: Lexicon) =>
  ['area', 'amount'].includes(units[senseOf(node, 'unit')?.value ?? '']?.kind ?? '');

/** The nodes with "kilo 50" as "50 kilo"; as they are in other languages. */
export function figuresFirst(nodes: readonly Node[], lexicon: Lexicon): readonly Node[] {
  if (!lexicon.unitsFirst) return nodes;
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; at++) {
    const [unit, figure] = [nodes[at]!, nodes[at + 1]];
    if (isMeasured(unit, lexicon) && isStrange(figure) && !isFigure(nodes[at - 1])) {
      out.push(unit, { ...figure!, senses: DOUBT, strange: false });
      at += 1;
      continue;
    }
    if (!isUnit(nodes, at) || !isFigure(figure) || isTaken(nodes, at)) {
      out.push(unit);
      continue;
    }
    const length = figureLength(nodes, at + 1);
    const span = { from: unit.from, to: nodes[at + length]!.to };
    out.push({ ...figure, ...span, glued: unit.glued }, ...nodes.slice(at + 2, at + 1 + length));
    out.push({ ...unit, ...span, glued: true });
    at += length;
  }
  return out;
}
