/** The fast solver, the slow one and a general-purpose LP solver, on the same random networks. */
import fc from 'fast-check';
import highsModule, { type Highs } from 'highs';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { Gap, Network } from '../../src/plan/network.ts';
import { solve } from '../../src/plan/solve.ts';
import { slowDistances } from '../support/slow-solver.ts';
import { networks } from './networks.ts';

type Bounds = readonly { readonly earliest: number | null; readonly latest: number | null }[];

/** Stands for "no bound" in the LP: far beyond any sum of the days drawn. */
const BOX = 100_000;

/** Its types are written for CommonJS; as a module, the default export is the loader itself. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

/** Smallest and largest day of each point, each by an LP of its own; null when the LP is infeasible. */
function lpBounds(points: number, gaps: readonly Gap[]): Bounds | null {
  const rows = gaps.filter((gap) => gap.from !== gap.to);
  if (gaps.some(({ from, to, lo, hi }) => from === to && ((lo ?? 0) > 0 || (hi ?? 0) < 0))) return null;
  const box = Array.from({ length: points }, (_, p) => (p === 0 ? 0 : BOX));
  const data = {
    numCols: points,
    numRows: rows.length,
    colCost: box.map(() => 0),
    colLower: box.map((days) => 0 - days),
    colUpper: box,
    rowLower: rows.map(({ lo }) => lo ?? -highs.infinity),
    rowUpper: rows.map(({ hi }) => hi ?? highs.infinity),
    matrix: {
      format: 'csr' as const,
      numRows: rows.length,
      numCols: points,
      starts: [0, ...rows.map((_, row) => 2 * (row + 1))],
      indices: rows.flatMap(({ from, to }) => [from, to]),
      values: rows.flatMap(() => [-1, 1]),
    },
  };
  return highs.withModel(data, (model) => {
    model.options.set({ output_flag: false });
    model.run();
    if (model.getModelStatus() !== highs.constants.modelStatus.optimal) return null;
    const best = (p: number, cost: 1 | -1) => {
      model.changeColCost(p, cost);
      model.run();
      expect(model.getModelStatus()).toBe(highs.constants.modelStatus.optimal);
      const days = Math.round(model.getSolution().colValue[p]!);
      model.changeColCost(p, 0);
      return Math.abs(days) > BOX / 2 ? null : 0 + days;
    };
    return box.map((_, p) => ({ earliest: best(p, 1), latest: best(p, -1) }));
  });
}

function slowBounds(points: number, gaps: readonly Gap[]): Bounds | null {
  const table = slowDistances(points, gaps);
  if (table === null) return null;
  const bound = (days: number, sign: 1 | -1) => (days === Infinity ? null : 0 + sign * days);
  return table.map((row, p) => ({ earliest: bound(row[0]!, -1), latest: bound(table[0]![p]!, 1) }));
}

function fastBounds(network: Network): Bounds {
  return solve(network).windows.map(({ earliest, latest }) => ({ earliest, latest }));
}

vi.setConfig({ testTimeout: 60_000 });

const MANY = 2_600;
const sample = fc.sample(networks, { numRuns: MANY, seed: 20_270_310 });

describe('three solvers', () => {
  it('agree on which networks can hold, and on every window of those', () => {
    let feasible = 0;
    for (const network of sample) {
      const lp = lpBounds(network.points, network.gaps);
      const { settled, blocked } = solve(network);
      expect(slowBounds(network.points, network.gaps)).toEqual(lp);
      expect(settled.length + blocked.length === 0).toBe(lp !== null);
      if (lp === null) continue;
      feasible++;
      expect(fastBounds(network)).toEqual(lp);
    }
    expect(feasible).toBeGreaterThan(800);
    expect(MANY - feasible).toBeGreaterThan(800);
  });

  it('agree on what stands once the others have given way', () => {
    let loosened = 0;
    for (const network of sample) {
      const { breaches, blocked, gaps } = solve(network);
      if (breaches.length + blocked.length === 0) continue;
      loosened++;
      expect(slowBounds(network.points, gaps)).toEqual(fastBounds(network));
      if (loosened <= 400) expect(lpBounds(network.points, gaps)).toEqual(fastBounds(network));
    }
    expect(loosened).toBeGreaterThan(800);
  });
});
