/** Where a plot's number has its word behind it, a bare number between that word and a name of work counts rounds: "৩ নং জমি ২ চাষ". */
import { means, type Node, type Sense, senseOf } from './sense.ts';
import { DOUBT } from './weigh.ts';

/** More rounds than anybody gives a plot: such a number may be a plot or a day after all. */
const MOST_ROUNDS = 6;
const ROUNDS: readonly Sense[] = [{ role: 'filler', value: 'filler' }];

const isNumber = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && Number.isInteger(node.value) && senseOf(node, 'number') !== undefined;

/** "চাষ", or a phrase that begins with it ("চাষ দিছি"). */
const isWorkName = (node: Node | undefined) =>
  senseOf(node, 'act')?.form === 'naming' || (senseOf(node, 'act') !== undefined && node!.raw.includes(' '));

/** A verb, and no unit that reads like one. */
const isVerb = (node: Node | undefined) =>
  (senseOf(node, 'act') ?? senseOf(node, 'verb')) !== undefined && !senseOf(node, 'unit');

/** True when "৩ নং জমিতে" ends before `at`: a number, "no.", and what may stand behind them. */
function followsPlot(nodes: readonly Node[], at: number): boolean {
  let i = at - 1;
  while (senseOf(nodes[i], 'article') || (senseOf(nodes[i], 'plot') && !means(nodes[i], 'plot', 'number')))
    i--;
  return means(nodes[i], 'plot', 'number') && isNumber(nodes[i - 1]);
}

/**
 * The nodes with such a count as a filler; one between two works is a count only beside another, and doubtful alone, as is one
 * before a verb that names no work.
 */
export function countedRounds(nodes: readonly Node[]): readonly Node[] {
  let counted = false;
  return nodes.map((node, at) => {
    if (!isNumber(node) || !isVerb(nodes[at + 1])) return node;
    const names = isWorkName(nodes[at + 1]);
    const between = names && isWorkName(nodes[at - 1]);
    if (!between && !followsPlot(nodes, at)) return node;
    const counts = names && node.value <= MOST_ROUNDS && (counted || !between);
    counted ||= counts;
    const { value: _, ...rest } = node;
    return { ...rest, senses: counts ? ROUNDS : DOUBT };
  });
}
