/** Requests for a sum: a sum's word first and then figures ("seed 0.4"), or a question for one ("how much seed"). */
import type { SumName, SumReading } from './reading.ts';
import { means, type Node, type PlotsSaid, senseOf } from './sense.ts';

const LEVEL_SPOTS = 3;

const isLead = (node: Node) =>
  node.mark !== undefined ||
  (node.senses.length > 0 &&
    node.senses.every((s) => s.role === 'filler' || s.role === 'article' || s.role === 'greeting'));

/** Numbers as texted, without those after the word for plot. */
function figures(nodes: readonly Node[]): number[] {
  return nodes.flatMap((node, i) => {
    if (node.parts) return [...node.parts];
    const before = nodes[i - 1];
    const plot = senseOf(before, 'plot') || (before?.mark === '.' && senseOf(nodes[i - 2], 'plot'));
    if (node.value === undefined || plot || !senseOf(node, 'number')) return [];
    return [node.value];
  });
}

/** "level 3: 12 10 15": what stands before a colon is the plot. */
function plotBeforeColon(nodes: readonly Node[]): { plots: string[]; rest: readonly Node[] } | null {
  const [, number, colon] = nodes;
  if (colon?.mark !== ':' || number?.value === undefined || !Number.isInteger(number.value)) return null;
  return { plots: [String(number.value)], rest: nodes.slice(3) };
}

function reading(sum: SumName, nodes: readonly Node[], plots: PlotsSaid | undefined): SumReading {
  const before = plotBeforeColon(nodes);
  const values = figures(before?.rest ?? nodes);
  const named = plots?.named ? plots.ids : [];
  // "plot 3 12 15 9": the figures behind one plot are no plots.
  const ids = before?.plots ?? (plots?.many || values.length === 0 ? named : named.slice(0, 1));
  return { kind: 'sum', sum, values, plots: ids, assumed: [] };
}

/** `nodes` before, `grouped` after plots were joined. */
export function readSum(nodes: readonly Node[], grouped: readonly Node[]): SumReading | null {
  const start = nodes.findIndex((node) => !isLead(node));
  if (start < 0) return null;
  const body = nodes.slice(start);
  const plots = grouped.find((node) => node.plots?.named)?.plots;
  const asked = body.map((node) => senseOf(node, 'sumAsk')).find((sense) => sense !== undefined);
  if (asked) return reading(asked.value as SumName, body, plots);
  const opening = senseOf(body[0], 'sum')?.value as SumName | undefined;
  if (!opening) return null;
  const dated = grouped.some((node) => node.said && !node.parts);
  // "fertiliser 2 bags plot 3" tells what was put on, or will be.
  const told = grouped.some((node) => node.measures?.amount && !senseOf(node, 'stage'));
  if (told && plots && (opening === 'nutrients' || opening === 'seed')) return null;
  const others = dated || body.slice(1).some((node) => isReport(node));
  const found = reading(opening, body, plots);
  if (!others && isTested(body, found)) return { ...found, sum: 'germination' };
  const isVerb = senseOf(body[0], 'act') !== undefined;
  if (others || (isVerb && (opening !== 'level' || found.values.length < LEVEL_SPOTS))) return null;
  return found.values.length > 0 || plots ? found : null;
}

/** "seeds 100 sprouted 85": seed, a number of it, and how many germinated. */
const isTested = (body: readonly Node[], { sum, values }: SumReading) =>
  sum === 'seed' && values.length === 2 && body.some((node) => means(node, 'sum', 'germination'));

const isReport = (node: Node) =>
  senseOf(node, 'act') !== undefined ||
  senseOf(node, 'verb') !== undefined ||
  senseOf(node, 'lacking') !== undefined ||
  senseOf(node, 'ended') !== undefined ||
  senseOf(node, 'trouble') !== undefined ||
  senseOf(node, 'stage') !== undefined ||
  means(node, 'mark', 'not');
