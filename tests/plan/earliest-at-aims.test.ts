import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { earliestAtAims } from '../../src/plan/earliest-at-aims.ts';
import type { Aim, Gap } from '../../src/plan/network.ts';
import { slowDistances } from '../support/slow-solver.ts';
import { networksWithAims } from './networks.ts';

const atLeast = (from: number, to: number, lo: number, hi: number | null = null): Gap => ({
  from,
  to,
  lo,
  hi,
  strength: 'must',
  rule: `${from}-${to}`,
});

describe('earliestAtAims', () => {
  it('takes the later of the lower bounds and the aims, and no notice of upper bounds', () => {
    const gaps = [atLeast(0, 1, 100, 105), atLeast(1, 2, 14), atLeast(0, 3, 5), atLeast(4, 5, 1)];
    const aims = [
      { point: 1, from: 0, days: 110 },
      { point: 2, from: 1, days: 10 },
      { point: 3, from: 2, days: 3 },
    ];
    expect(earliestAtAims(6, gaps, aims)).toEqual([0, 110, 124, 127, null, null]);
  });

  it('ends when lower bounds run in a circle', () => {
    const days = earliestAtAims(3, [atLeast(0, 1, 1), atLeast(1, 2, 1), atLeast(2, 1, 1)], []);
    expect(days[0]).toBe(0);
    expect(days[2]).toBeGreaterThanOrEqual(2);
  });

  it('is the longest path that the slow solver finds', () => {
    const asGap = ({ point, from, days }: Aim) => atLeast(from, point, days);
    let compared = 0;
    fc.assert(
      fc.property(networksWithAims, ({ network: { points, gaps }, aims }) => {
        const lower = [...gaps.map((gap) => ({ ...gap, hi: null })), ...aims.map(asGap)];
        const table = slowDistances(
          points,
          lower.filter((gap) => gap.to !== 0),
        );
        const days = earliestAtAims(points, gaps, aims);
        expect(days).toHaveLength(points);
        if (table === null) return;
        compared++;
        expect(days).toEqual(table.map((row) => (row[0] === Infinity ? null : 0 - row[0]!)));
      }),
      { numRuns: 1_500, seed: 5 },
    );
    expect(compared).toBeGreaterThan(300);
  });
});
