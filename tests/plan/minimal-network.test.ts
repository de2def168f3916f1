import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimalNetwork } from '../../src/plan/minimal-network.ts';
import type { Gap } from '../../src/plan/network.ts';
import { solve } from '../../src/plan/solve.ts';
import { slowDistances } from '../support/slow-solver.ts';
import { networks } from './networks.ts';

const between = (from: number, to: number, lo: number, hi: number): Gap => ({
  from,
  to,
  lo,
  hi,
  strength: 'must',
  rule: `${from}-${to}`,
});

/** The worked example of Dechter, Meiri & Pearl 1991 (figures from memory, recomputed). */
const WORKED = {
  points: 5,
  gaps: [
    between(0, 1, 10, 20),
    between(1, 2, 30, 40),
    between(3, 2, 10, 20),
    between(3, 4, 40, 50),
    between(0, 4, 60, 70),
  ],
};
const DISTANCES = [
  [0, 20, 50, 30, 70],
  [-10, 0, 40, 20, 60],
  [-40, -30, 0, -10, 30],
  [-20, -10, 20, 0, 50],
  [-60, -50, -20, -40, 0],
];

describe('minimalNetwork', () => {
  it('gives the matrix of the worked example', () => {
    expect(minimalNetwork(WORKED)).toEqual(DISTANCES);
  });

  it('has the windows of the worked example in its first row and column', () => {
    const { windows } = solve(WORKED);
    expect(windows.map((window) => window.latest)).toEqual(DISTANCES[0]);
    expect(windows.map((window) => window.earliest)).toEqual(DISTANCES.map((row) => 0 - row[0]!));
    expect(windows[3]!.latestBecause).toEqual(['3-4', '0-4']);
    expect(windows[2]!.earliestBecause).toEqual(['1-2', '0-1']);
  });

  it('is the slow solver’s table, null where that has none', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const slow = slowDistances(network.points, network.gaps);
        const expected = slow?.map((row) => row.map((days) => (days === Infinity ? null : days))) ?? null;
        expect(minimalNetwork(network)).toEqual(expected);
      }),
      { numRuns: 500 },
    );
  });
});
