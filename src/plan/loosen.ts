/**
 * Makes an infeasible network feasible. Bounds are let in one by one, the dearest first: a `must` that does
 * not fit is dropped, a `should` that does not fit is loosened just until it does. So the cheapest bound
 * of every conflict is the one that gives way, and never by a day more than the dearer ones require.
 */
import { FORWARD, type Graph, relax, type Tree, treeAt } from './graph.ts';
import type { Breach, Gap } from './network.ts';

export interface Loosened {
  /** The graph with the bounds that now stand. */
  readonly graph: Graph;
  /** Indices of the `must` gaps dropped, in gap order. */
  readonly dropped: readonly number[];
  /** In gap order, `hi` before `lo`. */
  readonly breaches: readonly Breach[];
}

/** Drops and loosens bounds of an infeasible network until it is feasible. */
export function loosen(graph: Graph, gaps: readonly Gap[]): Loosened {
  const standing = { ...graph, weight: new Float64Array(graph.weight.length).fill(Infinity) };
  const schedule = { distance: new Float64Array(graph.points), via: new Int32Array(graph.points) };
  const drops = (gap: number) => !admitMust(standing, schedule, gap, graph.weight);
  const dropped = mustsInOrder(gaps).filter(drops);
  const yielding = yieldingInOrder(gaps);
  const dropYielding = (cost: number) => {
    while (yielding.length > 0 && gaps[yielding[0]!]!.yieldsAt! >= cost)
      dropped.push(...yielding.splice(0, 1).filter(drops));
  };
  const breaches: Breach[] = [];
  for (const side of shouldsInOrder(gaps)) {
    dropYielding(costOf(gaps, side));
    const byDays = admitShould(standing, schedule, side, graph.weight[side]!);
    if (byDays > 0) breaches.push(breachOf(gaps, side, byDays));
  }
  dropYielding(-Infinity);
  const inOrder = breaches.sort((a, b) => a.gap - b.gap || (a.side < b.side ? -1 : 1));
  return { graph: standing, dropped: dropped.sort((a, b) => a - b), breaches: inOrder };
}

/** Musts that are dropped last come first. */
function mustsInOrder(gaps: readonly Gap[]): number[] {
  const rank = (gap: number) => gaps[gap]!.dropRank ?? Infinity;
  const musts = [...gaps.keys()].filter(
    (gap) => gaps[gap]!.strength === 'must' && gaps[gap]!.yieldsAt === undefined,
  );
  return musts.sort((a, b) => dearestFirst(rank(a), rank(b)));
}

/** Musts that yield to dearer shoulds, the one that yields to the fewest first: it is let in before all that cost less. */
function yieldingInOrder(gaps: readonly Gap[]): number[] {
  const yielding = [...gaps.keys()].filter(
    (gap) => gaps[gap]!.strength === 'must' && gaps[gap]!.yieldsAt !== undefined,
  );
  return yielding.sort((a, b) => dearestFirst(gaps[a]!.yieldsAt!, gaps[b]!.yieldsAt!));
}

/** Sides of shoulds, the dearest first; among equals the first in gap order gives way, so it comes last. */
function shouldsInOrder(gaps: readonly Gap[]): number[] {
  const sides: number[] = [];
  for (let gap = gaps.length - 1; gap >= 0; gap--) {
    if (gaps[gap]!.strength === 'should') sides.push(2 * gap, 2 * gap + 1);
  }
  return sides.sort((a, b) => dearestFirst(costOf(gaps, a), costOf(gaps, b)));
}

function dearestFirst(a: number, b: number): number {
  if (a === b) return 0;
  return a > b ? -1 : 1;
}

function costOf(gaps: readonly Gap[], side: number): number {
  const { costHi, costLo } = gaps[side >> 1]!;
  return ((side & 1) === 0 ? costHi : costLo) ?? Infinity;
}

function breachOf(gaps: readonly Gap[], side: number, byDays: number): Breach {
  const gap = side >> 1;
  return {
    gap,
    rule: gaps[gap]!.rule,
    side: (side & 1) === 0 ? 'hi' : 'lo',
    byDays,
    cost: costOf(gaps, side),
  };
}

function admitMust(graph: Graph, schedule: Tree, gap: number, weight: Float64Array): boolean {
  if (admit(graph, schedule, 2 * gap, weight[2 * gap]!)) {
    if (admit(graph, schedule, 2 * gap + 1, weight[2 * gap + 1]!)) return true;
    graph.weight[2 * gap] = Infinity;
  }
  return false;
}

/** Lets a side in, loosened as far as it has to be; the days by which. */
function admitShould(graph: Graph, schedule: Tree, side: number, weight: number): number {
  if (admit(graph, schedule, side, weight)) return 0;
  const needed = 0 - pathLength(graph, graph.head[side]!, graph.head[side ^ 1]!);
  admit(graph, schedule, side, needed);
  return needed - weight;
}

/** Lets a side in if it fits, and moves the schedule at hand so that it meets that side too. */
function admit(graph: Graph, schedule: Tree, side: number, weight: number): boolean {
  const { distance, via } = schedule;
  const tail = graph.head[side ^ 1]!;
  graph.weight[side] = weight;
  if (distance[graph.head[side]!]! <= distance[tail]! + weight) return true;
  const kept = distance.slice();
  via.fill(-1);
  if (relax(graph, schedule, tail, FORWARD)) return true;
  distance.set(kept);
  graph.weight[side] = Infinity;
  return false;
}

/** Length of the shortest path between two points; FAR or nearly so when there is none. */
function pathLength(graph: Graph, from: number, to: number): number {
  const tree = treeAt(graph.points, from);
  relax(graph, tree, from, FORWARD);
  return tree.distance[to]!;
}
