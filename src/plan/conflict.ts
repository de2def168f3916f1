/** Explains why a gap cannot be had: the fewest rules that clash with it, and the days that they are short by. */
import { before, FORWARD, type Graph, relax, treeAt } from './graph.ts';
import type { Conflict, Gap } from './network.ts';
import { isReached } from './windows.ts';

interface Cycle {
  readonly sides: readonly number[];
  readonly days: number;
}

const NO_CYCLE: Cycle = { sides: [], days: Infinity };

/**
 * The conflict that a gap brings into a network which is feasible without it; `network` has the gap in place.
 * The rules are minimal: starting from those of the shortest cycle, each is taken out for good if the rest
 * still clash (a deletion filter). One rule may stand for several gaps, so a cycle alone is not enough.
 */
export function conflictAt(network: Graph, gaps: readonly Gap[], gap: number): Conflict {
  const clash = { ...network, weight: network.weight.slice() };
  const rules = new Set([gaps[gap]!.rule]);
  for (const side of shortestCycle(clash, gap).sides) rules.add(gaps[side >> 1]!.rule);
  takeOut(clash, gaps, (rule) => !rules.has(rule));
  for (const rule of [...rules].slice(1)) {
    const kept = clash.weight.slice();
    takeOut(clash, gaps, (other) => other === rule);
    if (shortestCycle(clash, gap).days < 0) rules.delete(rule);
    else clash.weight.set(kept);
  }
  return { rules: [...rules], shortDays: 0 - shortestCycle(clash, gap).days };
}

/** Makes one conflict of those with the same rules, with the most days that they are short by. */
export function mergeConflicts(conflicts: readonly Conflict[]): readonly Conflict[] {
  const merged = new Map<string, Conflict>();
  for (const conflict of conflicts) {
    const key = JSON.stringify([...conflict.rules].sort());
    const known = merged.get(key);
    if (known === undefined || known.shortDays < conflict.shortDays) merged.set(key, conflict);
  }
  return [...merged.values()];
}

function takeOut({ weight }: Graph, gaps: readonly Gap[], isOut: (rule: string) => boolean): void {
  for (let gap = 0; gap < gaps.length; gap++) {
    if (isOut(gaps[gap]!.rule)) weight[2 * gap] = weight[2 * gap + 1] = Infinity;
  }
}

/**
 * The shortest simple cycle through a gap: both its sides there and back, or one side and the shortest way
 * back without the gap. That way can be had because the network is feasible without the gap.
 */
function shortestCycle(graph: Graph, gap: number): Cycle {
  const [hi, lo] = [2 * gap, 2 * gap + 1];
  const [hiDays, loDays] = [graph.weight[hi]!, graph.weight[lo]!];
  const both = graph.head[hi] === graph.head[lo] ? NO_CYCLE : { sides: [hi, lo], days: hiDays + loDays };
  graph.weight[hi] = graph.weight[lo] = Infinity;
  const cycles = [both, cycleBy(graph, hi, hiDays), cycleBy(graph, lo, loDays)];
  graph.weight[hi] = hiDays;
  graph.weight[lo] = loDays;
  return cycles.reduce((best, cycle) => (cycle.days < best.days ? cycle : best));
}

/** The shortest cycle by a side that is not itself in the graph. */
function cycleBy(graph: Graph, side: number, weight: number): Cycle {
  if (weight === Infinity) return NO_CYCLE;
  const start = graph.head[side]!;
  const end = graph.head[side ^ 1]!;
  const tree = treeAt(graph.points, start);
  relax(graph, tree, start, FORWARD);
  if (!isReached(tree, end)) return NO_CYCLE;
  const sides = [side];
  for (let point = end; point !== start; point = before(graph, sides.at(-1)!, FORWARD))
    sides.push(tree.via[point]!);
  return { sides, days: weight + tree.distance[end]! };
}
