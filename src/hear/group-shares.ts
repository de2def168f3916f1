/** Joins the nodes that say which part of the work is done, before any figure among them is taken for a day or a plot. */
import type { Day } from '../plan/day.ts';
import { isStrange } from './beside.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, type Sense, senseOf } from './sense.ts';
import { fractionOf, isWork, type Part, pastOf, type Setting, SHARE_PATTERNS } from './share-patterns.ts';
import { DOUBT } from './weigh.ts';

const stage = (value: string): readonly Sense[] => [{ role: 'stage', value }];
const STARTED = stage('partly');
const FILLER: readonly Sense[] = [{ role: 'filler', value: 'filler' }];
const SPANS = ['day', 'week', 'month'];

const hundredth = (value: number) => Math.round(value * 100) / 100;

/** True when the part is one of something else: "half the urea", "half an acre", "half a day". */
function isOfOther(nodes: readonly Node[], at: number): boolean {
  const next = nodes[pastOf(nodes, at)];
  if (senseOf(next, 'unit') || senseOf(next, 'thing')) return true;
  return SPANS.some((span) => means(next, 'date', span));
}

/** "ploughed plot 3 remaining half": that half was done, or is still to do. `told` is where work and plot had been named. */
function mayRemain(nodes: readonly Node[], at: number, told: number): boolean {
  if (!senseOf(nodes[at], 'rest')) return false;
  const next = pastOf(nodes, at + 1);
  return at > told && !isWork(nodes[next]) && !senseOf(nodes[next], 'plot');
}

/** The first place behind a plot and its work, in either order; Infinity where one of them is not named. */
function toldAt(nodes: readonly Node[]): number {
  const first = [nodes.findIndex((node) => senseOf(node, 'plot')), nodes.findIndex(isWork)];
  return first.includes(-1) ? Infinity : Math.max(...first);
}

/** "the rest of plot 3" is the end of its work; "the rest of my plots" is other plots. */
function isRest(nodes: readonly Node[], at: number, told: number): boolean {
  if (!senseOf(nodes[at], 'rest')) return false;
  if (means(nodes[at], 'rest', 'rest')) return !mayRemain(nodes, at, told);
  const next = pastOf(nodes, at + 1);
  const one = means(nodes[next], 'plot', 'one') || nodes[next + 1]?.value !== undefined;
  return isWork(nodes[next]) || (senseOf(nodes[next], 'plot') !== undefined && one);
}

/** "one thid of plot 1": some part of it. */
const isUnknownPart = (nodes: readonly Node[], at: number) =>
  isStrange(nodes[at]) && means(nodes[at + 1], 'date', 'of') && senseOf(nodes[pastOf(nodes, at + 1)], 'plot');

/** "1/2 acre": a figure for what follows. */
function asFigure(nodes: readonly Node[], at: number): Node | null {
  const found = fractionOf(nodes[at]);
  if (!found || !senseOf(nodes[pastOf(nodes, at + 1)], 'unit')) return null;
  const { parts: _, ...node } = nodes[at]!;
  return { ...node, senses: [{ role: 'number', value: 'number' }], value: found.top / found.bottom };
}

function join(nodes: readonly Node[], senses: readonly Sense[], share?: number): Node {
  const [first, last] = [nodes[0]!, nodes.at(-1)!];
  const raw = nodes.map((node) => node.raw).join(' ');
  const node = { senses, from: first.from, to: last.to, raw, glued: first.glued };
  return share === undefined ? node : { ...node, measures: { share } };
}

function partNode(nodes: readonly Node[], share: number): Node {
  if (share === 1) return join(nodes, stage('finished'));
  return share > 0 && share < 1 ? join(nodes, STARTED, hundredth(share)) : join(nodes, DOUBT);
}

/** A part of something else: of the seed that sprouted it says nothing, of the urea that some is put on. */
function otherNode(nodes: readonly Node[], sprouts: boolean): Node {
  if (nodes.length === 1) return nodes[0]!;
  return join(nodes, sprouts ? FILLER : STARTED);
}

function partAt(nodes: readonly Node[], at: number, setting: Setting): Part | null {
  for (const pattern of SHARE_PATTERNS) {
    const found = pattern(nodes, at, setting);
    if (found) return found;
  }
  return null;
}

/** The nodes with every part as one node: the stage of the work, and its `share` where a figure was said. */
export function groupShares(nodes: readonly Node[], lexicon: Lexicon, today: Day): Node[] {
  const sprouts = nodes.some((node) => means(node, 'act', 'pregerminate'));
  const told = toldAt(nodes);
  const plot = nodes.some((node, i) => senseOf(node, 'plot') && nodes[i + 1]?.value !== undefined);
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; ) {
    const found = partAt(nodes, at, { lexicon, today, plot });
    const length = found?.length ?? 1;
    const words = nodes.slice(at, at + length);
    if (found && (sprouts || isOfOther(nodes, at + length)))
      out.push(asFigure(nodes, at) ?? otherNode(words, sprouts));
    else if (found) out.push(partNode(words, found.share));
    else if (isUnknownPart(nodes, at) || mayRemain(nodes, at, told))
      out.push({ ...nodes[at]!, senses: DOUBT });
    else if (isRest(nodes, at, told)) out.push({ ...nodes[at]!, senses: stage('rest') });
    else out.push(asFigure(nodes, at) ?? nodes[at]!);
    at += length;
  }
  return out;
}
