/** Earliest and latest days, as shortest paths to and from the origin (Dechter, Meiri & Pearl 1991, from memory). */
import {
  BACKWARD,
  before,
  type Direction,
  FAR,
  FORWARD,
  type Graph,
  relax,
  type Tree,
  treeAt,
} from './graph.ts';
import { type Gap, ORIGIN, type Point, type Window } from './network.ts';

/** One window per point with the rules that set its bounds; null when the graph has a negative cycle. */
export function windowsOf(graph: Graph, gaps: readonly Gap[]): readonly Window[] | null {
  const late = treeAt(graph.points, ORIGIN);
  // From every point at once, so that a negative cycle out of the origin's reach is met as well.
  if (!relax(graph, late, null, FORWARD)) return null;
  const early = treeAt(graph.points, ORIGIN);
  relax(graph, early, ORIGIN, BACKWARD);
  const latestBecause = reasonsOf(graph, gaps, late, FORWARD);
  const earliestBecause = reasonsOf(graph, gaps, early, BACKWARD);
  return Array.from(latestBecause, (because, p) => ({
    earliest: isReached(early, p) ? 0 - early.distance[p]! : null,
    latest: isReached(late, p) ? late.distance[p]! : null,
    earliestBecause: earliestBecause[p]!,
    latestBecause: because,
  }));
}

/** Whether a path from the tree's start leads to the point. */
export function isReached(tree: Tree, point: Point): boolean {
  return tree.distance[point]! < FAR / 2;
}

/** The chain of rules from each point back to the origin, nearest first; points share the tails of their chains. */
function reasonsOf(
  graph: Graph,
  gaps: readonly Gap[],
  tree: Tree,
  direction: Direction,
): readonly string[][] {
  const reasons: string[][] = [];
  const reasonsAt = (point: Point): string[] => {
    const known = reasons[point];
    if (known) return known;
    const side = isReached(tree, point) ? tree.via[point]! : -1;
    reasons[point] =
      side === -1 ? [] : prepend(gaps[side >> 1]!.rule, reasonsAt(before(graph, side, direction)));
    return reasons[point];
  };
  for (let p = 0; p < graph.points; p++) reasonsAt(p);
  return reasons;
}

function prepend(rule: string, rest: string[]): string[] {
  return rest[0] === rule ? rest : [rule, ...rest];
}
