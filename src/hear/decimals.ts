/** Figures with a point that are no measure: a day in dot form behind plots ("ploughed 1 5.3"), else a puzzle. */
import type { Lexicon } from './lexicon.ts';
import type { Said } from './said-day.ts';
import { means, type Node, senseOf } from './sense.ts';

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
