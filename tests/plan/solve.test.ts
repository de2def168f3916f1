import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { minimalNetwork } from '../../src/plan/minimal-network.ts';
import type { Gap, Network, Window } from '../../src/plan/network.ts';
import { solve } from '../../src/plan/solve.ts';
import { slowDistances } from '../support/slow-solver.ts';
import { bigNetworks, networks, standingGaps } from './networks.ts';

vi.setConfig({ testTimeout: 60_000 });

const RUNS = { numRuns: 1_000 };

const gap = (from: number, to: number, lo: number | null, hi: number | null, more: Partial<Gap>): Gap => ({
  from,
  to,
  lo,
  hi,
  strength: 'should',
  rule: `${from}-${to}`,
  ...more,
});
const boundsOnly = (windows: readonly Window[]) => windows.map(({ earliest, latest }) => [earliest, latest]);
const feasible = ({ points, gaps }: Network) => slowDistances(points, gaps) !== null;

describe('solve, by example', () => {
  it('gives windows and the chain of rules behind each bound, nearest first', () => {
    const { windows, settled, blocked, breaches } = solve({
      points: 4,
      gaps: [
        gap(0, 1, 100, 110, { rule: 'water' }),
        gap(1, 2, 14, 21, { rule: 'rot' }),
        gap(2, 3, 3, null, { rule: 'settle' }),
        gap(0, 3, null, 119, { rule: 'target' }),
      ],
    });
    expect(windows).toEqual([
      { earliest: 0, latest: 0, earliestBecause: [], latestBecause: [] },
      { earliest: 100, latest: 102, earliestBecause: ['water'], latestBecause: ['rot', 'settle', 'target'] },
      { earliest: 114, latest: 116, earliestBecause: ['rot', 'water'], latestBecause: ['settle', 'target'] },
      { earliest: 117, latest: 119, earliestBecause: ['settle', 'rot', 'water'], latestBecause: ['target'] },
    ]);
    expect([settled, blocked, breaches]).toEqual([[], [], []]);
  });

  it('leaves a bound null, with no reasons, where nothing sets it', () => {
    const { windows } = solve({ points: 3, gaps: [gap(0, 1, 5, null, {}), gap(1, 2, null, 4, {})] });
    expect(boundsOnly(windows)).toEqual([
      [0, 0],
      [5, null],
      [null, null],
    ]);
    expect(windows[2]!.latestBecause).toEqual([]);
  });

  it('names a rule once where it stands for several gaps in a row', () => {
    const { windows } = solve({
      points: 4,
      gaps: [gap(0, 1, 9, 9, { rule: 'a' }), gap(1, 2, 1, 1, { rule: 'b' }), gap(2, 3, 1, 1, { rule: 'b' })],
    });
    expect(windows[3]!.earliestBecause).toEqual(['b', 'a']);
  });

  it('breaks the cheapest side of a clash, by the days needed', () => {
    const gaps = [
      gap(0, 1, 10, null, { rule: 'today', strength: 'must' }),
      gap(1, 2, 14, null, { rule: 'rot', costLo: 3, costHi: 9 }),
      gap(0, 2, null, 20, { rule: 'target', costLo: 1, costHi: 5 }),
      gap(0, 2, null, 90, { rule: 'idle', strength: 'must' }),
    ];
    const solution = solve({ points: 3, gaps });
    expect(solution.settled).toEqual([{ rules: ['rot', 'target', 'today'], shortDays: 4 }]);
    expect(solution.breaches).toEqual([{ gap: 1, rule: 'rot', side: 'lo', byDays: 4, cost: 3 }]);
    expect(solution.gaps).toEqual([gaps[0], { ...gaps[1], lo: 10 }, gaps[2], gaps[3]]);
    expect(boundsOnly(solution.windows)[2]).toEqual([20, 20]);
  });

  it('breaks a side without a stated cost only when no other will do', () => {
    const fixed = { rule: 'pin', strength: 'must' } as const;
    const uncosted = gap(0, 1, 5, null, { rule: 'plain' });
    const costed = gap(0, 1, null, 2, { rule: 'dear', costHi: 1_000 });
    expect(solve({ points: 2, gaps: [uncosted, costed] }).breaches[0]!.rule).toBe('dear');
    const pinned = solve({ points: 2, gaps: [uncosted, gap(0, 1, null, 2, fixed)] });
    expect(pinned.breaches).toEqual([{ gap: 0, rule: 'plain', side: 'lo', byDays: 3, cost: Infinity }]);
  });

  it('breaks the first in gap order among equals', () => {
    const gaps = [gap(0, 1, 5, null, { rule: 'a', costLo: 2 }), gap(0, 1, null, 2, { rule: 'b', costHi: 2 })];
    expect(solve({ points: 2, gaps }).breaches[0]!.rule).toBe('a');
    expect(solve({ points: 2, gaps: gaps.toReversed() }).breaches[0]!.rule).toBe('b');
  });

  it('does not report a rule that the clash can do without', () => {
    const must = { strength: 'must' } as const;
    const gaps = [
      gap(0, 1, 10, null, { ...must, rule: 'a' }),
      gap(1, 2, 10, null, { ...must, rule: 'b' }),
      gap(0, 2, 15, null, { ...must, rule: 'a' }),
      gap(0, 2, null, 12, { rule: 'c', costHi: 1 }),
    ];
    const solution = solve({ points: 3, gaps });
    expect(solution.breaches[0]!.byDays).toBe(8);
    expect(solution.settled).toEqual([{ rules: ['c', 'a'], shortDays: 3 }]);
  });

  it('reports musts that clash, drops the lowest in rank, and gives the rest windows', () => {
    const must = { strength: 'must' } as const;
    const gaps = [
      gap(0, 1, 5, null, { ...must, rule: 'low', dropRank: 1 }),
      gap(0, 1, null, 3, { ...must, rule: 'high', dropRank: 2 }),
      gap(1, 2, 7, 7, { rule: 'next' }),
    ];
    const solution = solve({ points: 3, gaps });
    expect(solution.blocked).toEqual([{ rules: ['low', 'high'], shortDays: 2 }]);
    expect(solution.gaps).toEqual([gaps[1], gaps[2]]);
    expect(solution.breaches).toEqual([]);
    expect(boundsOnly(solution.windows)[2]).toEqual([null, 10]);
  });

  it('drops the later must in gap order among equals, and one without a rank last', () => {
    const early = gap(0, 1, null, 3, { strength: 'must', rule: 'early' });
    const late = gap(0, 1, 5, null, { strength: 'must', rule: 'late' });
    expect(solve({ points: 2, gaps: [early, late] }).gaps).toEqual([early]);
    expect(solve({ points: 2, gaps: [{ ...early, dropRank: 9 }, late] }).gaps).toEqual([late]);
  });

  it('drops a must rather than breach a should above what it yields at, and only then', () => {
    const old = gap(0, 1, null, 3, { strength: 'must', rule: 'old', yieldsAt: 4 });
    const should = (costLo: number) => gap(0, 1, 5, null, { rule: 'rot', costLo });
    const dear = solve({ points: 2, gaps: [old, should(5)] });
    expect(dear.gaps).toEqual([should(5)]);
    expect(dear.blocked).toEqual([{ rules: ['old', 'rot'], shortDays: 2 }]);
    expect(dear.breaches).toEqual([]);
    const cheap = solve({ points: 2, gaps: [old, should(4)] });
    expect(cheap.blocked).toEqual([]);
    expect(cheap.breaches).toMatchObject([{ rule: 'rot', byDays: 2 }]);
  });

  it('meets a clash that the origin cannot see', () => {
    const gaps = [gap(1, 2, 5, null, { rule: 'a' }), gap(1, 2, null, 4, { rule: 'b', costHi: 1 })];
    expect(solve({ points: 3, gaps }).settled).toEqual([{ rules: ['b', 'a'], shortDays: 1 }]);
  });

  it('is not misled by an earlier clash when a late bound moves many points many times', () => {
    const last = 13;
    const gaps = [gap(last, last, 4, null, { rule: 'clash', costLo: 9 })];
    for (let i = 1; i < last; i++) {
      for (let j = last - 1; j > i; j--) gaps.push(gap(i, j, null, (j - i) ** 2, { costHi: 5 }));
    }
    gaps.push(gap(0, 1, null, -1_000, { costHi: 1 }));
    const { windows, breaches } = solve({ points: last + 1, gaps });
    expect(breaches.map((breach) => breach.rule)).toEqual(['clash']);
    expect(windows[last - 1]!.latest).toBe(-1_000 + last - 2);
  });

  it('mends a gap at odds with itself, and a gap from a point to itself', () => {
    expect(solve({ points: 2, gaps: [gap(0, 1, 5, 3, {})] }).breaches).toMatchObject([
      { side: 'lo', byDays: 2 },
    ]);
    expect(solve({ points: 2, gaps: [gap(1, 1, 4, null, {})] }).breaches).toMatchObject([{ byDays: 4 }]);
  });
});

describe('solve, always', () => {
  it('changes nothing the second time, nor when its windows are added as rules', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const { points } = network;
        const once = solve(network);
        const twice = solve({ points, gaps: once.gaps });
        expect(twice).toEqual({ ...once, settled: [], blocked: [], breaches: [] });
        const known = once.windows.map((window, p) =>
          gap(0, p, window.earliest, window.latest, { strength: 'must', rule: 'known' }),
        );
        const again = solve({ points, gaps: [...once.gaps, ...known] });
        expect(boundsOnly(again.windows)).toEqual(boundsOnly(once.windows));
        expect([...again.settled, ...again.blocked]).toEqual([]);
      }),
      RUNS,
    );
  });

  it('never widens a window when a rule that can hold is added', () => {
    let narrowed = 0;
    fc.assert(
      fc.property(networks, ({ points, gaps }) => {
        fc.pre(feasible({ points, gaps }));
        const fewer = boundsOnly(solve({ points, gaps: gaps.slice(1) }).windows);
        const more = boundsOnly(solve({ points, gaps }).windows);
        for (const [p, [earliest, latest]] of more.entries()) {
          expect(earliest ?? -Infinity).toBeGreaterThanOrEqual(fewer[p]![0] ?? -Infinity);
          expect(latest ?? Infinity).toBeLessThanOrEqual(fewer[p]![1] ?? Infinity);
        }
        if (JSON.stringify(fewer) !== JSON.stringify(more)) narrowed++;
      }),
      { ...RUNS, seed: 1 },
    );
    expect(narrowed).toBeGreaterThan(100);
  });

  it('gives reasons that alone set the same bound, in order from the point to the origin', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const { windows, gaps } = solve(network);
        for (const [p, window] of windows.entries()) {
          const alone = (rules: readonly string[]) =>
            slowDistances(
              network.points,
              gaps.filter(({ rule }) => rules.includes(rule)),
            )!;
          const { earliestBecause, latestBecause } = window;
          expect(0 - alone(earliestBecause)[p]![0]!).toBe(window.earliest ?? -Infinity);
          expect(alone(latestBecause)[0]![p]!).toBe(window.latest ?? Infinity);
          for (const chain of [earliestBecause, latestBecause]) expectChain(chain, p, gaps);
        }
      }),
      RUNS,
    );
  });

  it('is as right on networks of a season’s size', () => {
    let breached = 0;
    fc.assert(
      fc.property(bigNetworks, (network) => {
        const { points } = network;
        const solution = solve(network);
        const table = minimalNetwork({ points, gaps: solution.gaps })!;
        expect(solution.windows.map(({ latest }) => latest)).toEqual(table[0]);
        const earliest = solution.windows.map((window) => window.earliest);
        expect(earliest).toEqual(table.map(([days]) => (days === null ? null : 0 - days!)));
        for (const { gap: index, side, byDays } of solution.breaches) {
          breached++;
          const less = byDays - 1;
          const given = network.gaps[index]!;
          const tighter =
            side === 'hi' ? { lo: null, hi: given.hi! + less } : { lo: given.lo! - less, hi: null };
          expect(minimalNetwork({ points, gaps: [...solution.gaps, { ...given, ...tighter }] })).toBeNull();
        }
        for (const [index, standing] of standingGaps(network, solution).entries()) {
          const breaches = solution.breaches.filter((breach) => breach.gap === index);
          if (breaches.length === 0 && standing !== null) expect(standing).toEqual(network.gaps[index]);
        }
      }),
      { numRuns: 400, seed: 6 },
    );
    expect(breached).toBeGreaterThan(400);
  });

  it('ends, without a fault, on any finite network', () => {
    const days = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer(),
      fc.constant(null),
    );
    const wild = fc.record({
      from: fc.nat({ max: 4 }),
      to: fc.nat({ max: 4 }),
      lo: days,
      hi: days,
      strength: fc.constantFrom('must' as const, 'should' as const),
      rule: fc.constantFrom('a', 'b', 'c'),
      costLo: fc.double(),
      costHi: fc.double(),
      dropRank: fc.double(),
    });
    fc.assert(
      fc.property(fc.array(wild, { maxLength: 12 }), (gaps) => {
        expect(solve({ points: 5, gaps }).windows).toHaveLength(5);
      }),
      RUNS,
    );
  });
});

/** Each rule in the chain touches the point that the one before it led to, and the last one the origin. */
function expectChain(chain: readonly string[], point: number, gaps: readonly Gap[]): void {
  if (chain.length === 0) return;
  let reached = new Set([point]);
  for (const rule of chain)
    reached = spread(
      reached,
      gaps.filter((one) => one.rule === rule),
    );
  expect(reached.has(0)).toBe(true);
  expect(chain.some((rule, i) => i > 0 && rule === chain[i - 1])).toBe(false);
}

/** The points that one or more of the gaps lead to, either way. */
function spread(start: ReadonlySet<number>, gaps: readonly Gap[]): Set<number> {
  const known = new Set(start);
  const touched = new Set<number>();
  for (let grown = -1; grown !== touched.size; ) {
    grown = touched.size;
    for (const { from, to } of gaps) {
      for (const [a, b] of [
        [from, to],
        [to, from],
      ] as const) {
        if (known.has(a)) touched.add(b);
      }
    }
    for (const p of touched) known.add(p);
  }
  return touched;
}
