/** Cuts the nodes of a text at punctuation and joining words, and each piece so that it holds one verb at most. */
import { lastVerbCuts } from './last-verbs.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, senseOf } from './sense.ts';

export type Link = 'start' | 'stop' | 'comma' | 'and' | 'or' | 'then' | 'but' | 'none';

export interface Chunk {
  readonly nodes: readonly Node[];
  /** How it hangs on the chunk before. */
  readonly by: Link;
  readonly sentence: number;
  /** The mark that ends its sentence. */
  readonly ending: '?' | '!' | '';
}

const STRONG = new Set(['.', ';', '?', '!', '\n']);
/** Looser first. */
const LINKS: readonly Link[] = ['none', 'comma', 'and', 'or', 'then', 'but', 'stop', 'start'];
const rank = (link: Link) => LINKS.indexOf(link);
const JOINING = new Set(['join', 'filler', 'article', 'answer', 'greeting']);
const JOINS: readonly Link[] = ['and', 'or', 'then', 'but'];

function linkOf(node: Node): Link | null {
  if (node.mark !== undefined)
    return STRONG.has(node.mark) ? 'stop' : node.mark === '&' || node.mark === '+' ? 'and' : 'comma';
  if (node.senses.some((sense) => !JOINING.has(sense.role))) return null;
  return JOINS.find((join) => means(node, 'join', join)) ?? null;
}

/** A node that says what is done, or asks: the middle of a clause. */
export const isHead = (node: Node): boolean =>
  senseOf(node, 'act') !== undefined ||
  senseOf(node, 'verb') !== undefined ||
  (senseOf(node, 'ask') !== undefined && !means(node, 'ask', 'why'));

const isArgument = (node: Node): boolean =>
  node.plots !== undefined || node.said !== undefined || node.measures !== undefined;

interface Draft {
  nodes: Node[];
  by: Link;
  sentence: number;
}

function cut(nodes: readonly Node[]): Chunk[] {
  const drafts: Draft[] = [];
  const endings: ('?' | '!' | '')[] = [''];
  let open: Draft = { nodes: [], by: 'start', sentence: 0 };
  for (const node of nodes) {
    const link = linkOf(node);
    if (link === null) {
      open.nodes.push(node);
      continue;
    }
    if (link === 'stop' && (node.mark === '?' || node.mark === '!')) {
      const last =
        open.nodes.length > 0 ? open.sentence : Math.max(0, open.sentence - (open.by === 'stop' ? 1 : 0));
      endings[last] = endings[last] === '?' ? '?' : node.mark;
    }
    if (open.nodes.length > 0) drafts.push(open);
    const sentence = open.sentence + (link === 'stop' && open.nodes.length > 0 ? 1 : 0);
    while (endings.length <= sentence) endings.push('');
    const by = open.nodes.length === 0 && rank(open.by) > rank(link) ? open.by : link;
    open = { nodes: [], by, sentence };
  }
  if (open.nodes.length > 0) drafts.push(open);
  return drafts.map((draft) => ({ ...draft, ending: endings[draft.sentence] ?? '' }));
}

/** "ploughed today tomorrow will level", "yesterday ploughed today level": a day of its own, or the place of days, leads on. */
const leadsToo = (nodes: readonly Node[], first: number, day: number): boolean =>
  nodes.slice(first + 1, day).some((node) => node.said) || nodes.slice(0, first).some((node) => node.said);

/** Where, between two heads, the second one's clause begins. */
function border(
  nodes: readonly Node[],
  first: number,
  second: number,
  plotsFirst: boolean,
  stageFirst: boolean,
): number {
  if (plotsFirst) {
    for (let i = second - 1; i > first; i--) if (nodes[i]!.plots) return i;
  }
  for (let i = second - 1; i > first; i--) {
    if (nodes[i]!.said && leadsToo(nodes, first, i)) return i;
    if (isArgument(nodes[i]!)) return i + 1;
    if (senseOf(nodes[i], 'stage') && !stageFirst) return i + 1;
  }
  return first + 1;
}

/** The chunk in pieces that begin at these nodes. */
function pieces(chunk: Chunk, cuts: readonly number[]): Chunk[] {
  const edges = [0, ...cuts, chunk.nodes.length];
  return edges.slice(0, -1).map((from, i) => ({
    ...chunk,
    nodes: chunk.nodes.slice(from, edges[i + 1]),
    by: i === 0 ? chunk.by : 'none',
  }));
}

function split(chunk: Chunk): Chunk[] {
  const heads = chunk.nodes.flatMap((node, i) => (isHead(node) ? [i] : []));
  const [first, last] = [heads[0], heads.at(-1)];
  if (first === undefined || last === undefined || heads.length === 1) return [chunk];
  const before = chunk.nodes.slice(0, first);
  const plotsFirst =
    before.some((node) => node.plots) && !chunk.nodes.slice(last + 1).some((node) => node.plots);
  const stageFirst = before.some((node) => senseOf(node, 'stage'));
  const cuts = heads.slice(1).map((head, i) => border(chunk.nodes, heads[i]!, head, plotsFirst, stageFirst));
  return pieces(chunk, cuts);
}

/** "started Monday finished Wednesday": the second stage with its own day is a clause of its own. */
function splitStages(chunk: Chunk): Chunk[] {
  const stages = chunk.nodes.flatMap((node, i) => (senseOf(node, 'stage') ? [i] : []));
  const days = chunk.nodes.filter((node) => node.said).length;
  const [, second] = stages;
  if (second === undefined || days < 2) return [chunk];
  return [
    { ...chunk, nodes: chunk.nodes.slice(0, second) },
    { ...chunk, nodes: chunk.nodes.slice(second), by: 'and' },
  ];
}

/** "plot 1 ploughed sunday plot 2 monday plot 3 tuesday": behind one verb, each named plot with its day is a piece of its own. */
function splitPairs(chunk: Chunk): Chunk[] {
  const { nodes } = chunk;
  const at = nodes.flatMap((node, i) => (node.plots || node.said ? [i] : []));
  const pairs = at.filter((_, turn) => turn % 2 === 0);
  const paired = at.every((i, turn) => (turn % 2 === 0 ? nodes[i]!.plots?.named : nodes[i]!.said));
  const second = pairs[1];
  const verbs = nodes.flatMap((node, i) => (isHead(node) ? [i] : []));
  if (!paired || at.length % 2 !== 0 || second === undefined || verbs.length !== 1 || verbs[0]! > second)
    return [chunk];
  if (nodes.slice(second).some((node) => !isArgument(node))) return [chunk];
  return pieces(chunk, pairs.slice(1)).map((piece, i) => (i === 0 ? piece : { ...piece, by: 'and' }));
}

/** "plot 2 not yet": denied, with nothing behind that could be denied instead. */
const isDenied = (nodes: readonly Node[], plots: number): boolean => {
  const end = nodes[plots + 2];
  const ends = end === undefined || end.mark !== undefined || linkOf(end) !== null;
  return means(nodes[plots + 1], 'mark', 'not') && ends && !isHead(nodes[plots + 1]!);
};

/**
 * "plot 1 ploughed, plot 2 cleared": the list "1, 2" between two verbs belongs to both, the last named one to the second; in
 * "ploughed plot 1, plot 2 not yet" the last named one is denied.
 */
function partList(nodes: readonly Node[]): Node[] {
  const heads = nodes.flatMap((node, i) => (isHead(node) ? [i] : []));
  return nodes.flatMap((node, i) => {
    const at = node.plots?.lastNamedAt;
    if (at === undefined) return [node];
    const second = heads.find((head) => head > i);
    const touching =
      second !== undefined &&
      !nodes.slice(i + 1, second).some((one) => one.mark !== undefined || linkOf(one));
    const denied = isDenied(nodes, i);
    if (!(touching || denied) || !heads.some((head) => head < i)) return [node];
    const after = denied
      ? []
      : nodes.slice(second! + 1, heads.find((head) => head > second!) ?? nodes.length);
    if (after.some((one) => one.plots)) return [node];
    const { ids } = node.plots!;
    const half = (part: readonly string[]) => ({ ...node, plots: { ids: part, named: true } });
    const comma: Node = { senses: [], from: node.from, to: node.from, raw: ',', glued: false, mark: ',' };
    return [half(ids.slice(0, at)), comma, half(ids.slice(at))];
  });
}

/** The chunks of a text, each with one head or none. */
export function cutChunks(nodes: readonly Node[], { verbsLast }: Lexicon): Chunk[] {
  if (verbsLast) return cut(nodes).flatMap((chunk) => pieces(chunk, lastVerbCuts(chunk.nodes)));
  return cut(partList(nodes)).flatMap(split).flatMap(splitStages).flatMap(splitPairs);
}
