/** Solves a temporal network: windows, and, where not every rule can hold, which give way and why. */
import { conflictAt, mergeConflicts } from './conflict.ts';
import { type Graph, graphOf } from './graph.ts';
import { type Loosened, loosen } from './loosen.ts';
import type { Breach, Gap, Network, Solution } from './network.ts';
import { windowsOf } from './windows.ts';

/**
 * Windows in days for every point. When the rules clash, the cheapest `should`s are breached by as few days as
 * will do; `must`s that clash among themselves, or with what they yield to, are reported as blocked and dropped.
 */
export function solve(network: Network): Solution {
  const { points, gaps } = network;
  const graph = graphOf(points, gaps);
  const windows = windowsOf(graph, gaps);
  if (windows) return { windows, settled: [], blocked: [], breaches: [], gaps };
  const loosened = loosen(graph, gaps);
  return {
    windows: windowsOf(loosened.graph, gaps) ?? [],
    settled: settledBy(loosened, gaps),
    blocked: blockedBy(graph, loosened, gaps),
    breaches: loosened.breaches,
    gaps: standingGaps(loosened, gaps),
  };
}

/** What clashes when one breach at a time is undone. */
function settledBy({ graph, breaches }: Loosened, gaps: readonly Gap[]) {
  const undone = (breach: Breach) => {
    const weight = graph.weight.slice();
    weight[2 * breach.gap + (breach.side === 'hi' ? 0 : 1)]! -= breach.byDays;
    return conflictAt({ ...graph, weight }, gaps, breach.gap);
  };
  return mergeConflicts(breaches.map(undone));
}

/** What clashes when one dropped `must` at a time is put back among the `must`s and the `should`s it yields to. */
function blockedBy(given: Graph, { graph, dropped }: Loosened, gaps: readonly Gap[]) {
  const putBack = (gap: number) => {
    const weight = graph.weight.map((days, side) =>
      weighsOn(gaps[gap]!, gaps[side >> 1]!, side) ? days : Infinity,
    );
    weight.set(given.weight.subarray(2 * gap, 2 * gap + 2), 2 * gap);
    return conflictAt({ ...graph, weight }, gaps, gap);
  };
  return mergeConflicts(dropped.map(putBack));
}

function weighsOn({ yieldsAt = Infinity }: Gap, other: Gap, side: number): boolean {
  if (other.strength === 'must') return true;
  const cost = (side & 1) === 0 ? other.costHi : other.costLo;
  return (cost ?? Infinity) > yieldsAt;
}

function standingGaps({ dropped, breaches }: Loosened, gaps: readonly Gap[]): readonly Gap[] {
  const standing: (Gap | null)[] = [...gaps];
  for (const gap of dropped) standing[gap] = null;
  for (const { gap, side, byDays } of breaches) {
    const { lo, hi, ...rest } = standing[gap]!;
    standing[gap] = side === 'hi' ? { ...rest, lo, hi: hi! + byDays } : { ...rest, lo: lo! - byDays, hi };
  }
  return standing.filter((gap) => gap !== null);
}
