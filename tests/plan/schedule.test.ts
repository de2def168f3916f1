import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Aim, Gap, Solution } from '../../src/plan/network.ts';
import { schedule } from '../../src/plan/schedule.ts';
import { solve } from '../../src/plan/solve.ts';
import { slowDistances } from '../support/slow-solver.ts';
import { networksWithAims } from './networks.ts';

vi.setConfig({ testTimeout: 60_000 });

const RUNS = { numRuns: 1_000 };
const gap = (from: number, to: number, lo: number | null, hi: number | null): Gap => ({
  from,
  to,
  lo,
  hi,
  strength: 'should',
  rule: `${from}-${to}`,
});

describe('schedule, by example', () => {
  const gaps = [gap(0, 1, 100, 110), gap(1, 2, 14, 21), gap(0, 2, null, 120)];
  const solution = solve({ points: 3, gaps });

  it('is at the aims where they can be had', () => {
    const aims = [
      { point: 1, from: 0, days: 103 },
      { point: 2, from: 1, days: 15 },
    ];
    expect(schedule(solution, 3, aims)).toEqual([0, 103, 118]);
  });

  it('gives an earlier aim its day before a later one', () => {
    const [first, second] = [
      { point: 1, from: 0, days: 105 },
      { point: 2, from: 0, days: 115 },
    ];
    expect(schedule(solution, 3, [first, second])).toEqual([0, 105, 119]);
    expect(schedule(solution, 3, [second, first])).toEqual([0, 101, 115]);
  });

  it('keeps to the first aim of a point', () => {
    const aims = [
      { point: 1, from: 0, days: 104 },
      { point: 1, from: 0, days: 101 },
    ];
    expect(schedule(solution, 3, aims)[1]).toBe(104);
  });

  it('takes the earliest day without an aim, the latest for want of that, and day 0 for want of both', () => {
    const open = solve({ points: 5, gaps: [gap(0, 1, 7, null), gap(0, 2, null, 9), gap(3, 4, 2, null)] });
    expect(schedule(open, 5, [])).toEqual([0, 7, 9, 0, 2]);
  });
});

/** The same choices, with every window worked out afresh by the slow solver. */
function slowSchedule({ gaps }: Solution, points: number, aims: readonly Aim[]): number[] {
  const days = new Map([[0, 0]]);
  const windowOf = (point: number): [number, number] => {
    const pins = [...days].map(([p, day]) => gap(0, p, day, day));
    const table = slowDistances(points, [...gaps, ...pins])!;
    return [0 - table[point]![0]!, table[0]![point]!];
  };
  const dayOf = (point: number) =>
    days.get(point) ?? windowOf(point).find((day) => Number.isFinite(day)) ?? 0;
  const fix = (point: number, wanted: number) => {
    const [earliest, latest] = windowOf(point);
    days.set(point, Math.min(Math.max(wanted, earliest), latest));
  };
  for (const { point, from, days: after } of aims) {
    if (!days.has(point)) fix(point, dayOf(from) + after);
  }
  for (let p = 0; p < points; p++) if (!days.has(p)) fix(p, dayOf(p));
  return Array.from({ length: points }, (_, p) => days.get(p)!);
}

describe('schedule, always', () => {
  it('meets every gap that stands', () => {
    fc.assert(
      fc.property(networksWithAims, ({ network, aims }) => {
        const solution = solve(network);
        const days = schedule(solution, network.points, aims);
        expect(days[0]).toBe(0);
        for (const { from, to, lo, hi } of solution.gaps) {
          expect(days[to]! - days[from]!).toBeGreaterThanOrEqual(lo ?? -Infinity);
          expect(days[to]! - days[from]!).toBeLessThanOrEqual(hi ?? Infinity);
        }
      }),
      RUNS,
    );
  });

  it('makes the choices that the slow solver makes', () => {
    fc.assert(
      fc.property(networksWithAims, ({ network, aims }) => {
        const solution = solve(network);
        expect(schedule(solution, network.points, aims)).toEqual(
          slowSchedule(solution, network.points, aims),
        );
      }),
      RUNS,
    );
  });
});
