/** Whatever gives way gives way for a reason that can be checked: undo it, and the reported rules clash. */
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Breach, Conflict, Gap, Network, Solution } from '../../src/plan/network.ts';
import { solve } from '../../src/plan/solve.ts';
import { boundsOf, slowDistances, slowShortestCycle } from '../support/slow-solver.ts';
import { networks, standingGaps } from './networks.ts';

vi.setConfig({ testTimeout: 60_000 });

const RUNS = { numRuns: 1_500 };
type Solved = { readonly network: Network; readonly solution: Solution; readonly standing: (Gap | null)[] };

/** Networks that cannot hold as they are, solved. */
const clashing: fc.Arbitrary<Solved> = networks
  .map((network) => ({ network, solution: solve(network) }))
  .filter(({ solution }) => solution.breaches.length + solution.blocked.length > 0)
  .map((solved) => ({ ...solved, standing: standingGaps(solved.network, solved.solution) }));

const holds = (points: number, gaps: readonly Gap[]) => slowDistances(points, gaps) !== null;

/** A gap loosened on one side, or tightened by a negative number of days. */
function loosen(gap: Gap, side: 'lo' | 'hi', days: number): Gap {
  return side === 'hi' ? { ...gap, hi: gap.hi! + days } : { ...gap, lo: gap.lo! - days };
}

/** The standing network with one breach made smaller by some days, or undone. */
function withLess({ standing }: Solved, { gap, side, byDays }: Breach, days = byDays): Gap[] {
  return standing.map((g, i) => (g && i === gap ? loosen(g, side, -days) : g)).filter((g) => g !== null);
}

/** One dropped must put back among the standing musts and the standing shoulds that it yields to. */
function withBack({ network, standing }: Solved, dropped: number): Gap[] {
  const { yieldsAt = Infinity } = network.gaps[dropped]!;
  return network.gaps.flatMap((given, i): Gap[] => {
    if (i === dropped) return [given];
    const gap = standing[i];
    if (!gap || gap.strength === 'must') return gap ? [gap] : [];
    const { costLo = Infinity, costHi = Infinity } = gap;
    return [{ ...gap, lo: costLo > yieldsAt ? gap.lo : null, hi: costHi > yieldsAt ? gap.hi : null }];
  });
}

function droppedIn({ standing }: Solved): number[] {
  return [...standing.keys()].filter((i) => standing[i] === null);
}

const withRules = (gaps: readonly Gap[], rules: readonly string[]) =>
  gaps.filter((g) => rules.includes(g.rule));

/** Whether the rules clash in these gaps, and hold when any one is out. */
function isMinimal({ rules }: Conflict, points: number, gaps: readonly Gap[]): boolean {
  const without = (out: string) => rules.filter((rule) => rule !== out);
  if (holds(points, withRules(gaps, rules))) return false;
  return rules.every((out) => holds(points, withRules(gaps, without(out))));
}

/** The days missing on the shortest cycle of the rules in these gaps. */
function shortBy({ rules }: Conflict, gaps: readonly Gap[]): number {
  return 0 - slowShortestCycle(withRules(gaps, rules))!.days;
}

describe('what gives way', () => {
  it('is a should, never a must; what is not reported stands as it was', () => {
    fc.assert(
      fc.property(clashing, ({ network, solution, standing }) => {
        for (const [i, gap] of network.gaps.entries()) {
          const breaches = solution.breaches.filter((breach) => breach.gap === i);
          if (gap.strength === 'should') expect(standing[i]).not.toBeNull();
          if (breaches.length > 0) expect(gap.strength).toBe('should');
          const expected = breaches.reduce((g, { side, byDays }) => loosen(g, side, byDays), gap);
          if (standing[i] !== null) expect(standing[i]).toEqual(expected);
        }
      }),
      RUNS,
    );
  });

  it('gives way by not a day too many', () => {
    fc.assert(
      fc.property(clashing, (solved) => {
        const { points } = solved.network;
        expect(holds(points, solved.solution.gaps)).toBe(true);
        for (const breach of solved.solution.breaches) {
          expect(breach.byDays).toBeGreaterThan(0);
          expect(holds(points, withLess(solved, breach, 1))).toBe(false);
        }
        for (const gap of droppedIn(solved)) expect(holds(points, withBack(solved, gap))).toBe(false);
      }),
      RUNS,
    );
  });

  it('is the cheapest: the dearer bounds alone leave it no room', () => {
    fc.assert(
      fc.property(clashing, (solved) => {
        for (const breach of solved.solution.breaches) {
          const dearer = dearerThan(breach, withLess(solved, breach, 0), solved);
          expect(holds(solved.network.points, dearer)).toBe(false);
        }
      }),
      RUNS,
    );
  });

  it('is, among musts, the lowest in rank', () => {
    let dropped = 0;
    fc.assert(
      fc.property(clashing, (solved) => {
        const rank = (i: number) => solved.network.gaps[i]!.dropRank ?? Infinity;
        const firm = (i: number) => solved.network.gaps[i]!.yieldsAt === undefined;
        for (const out of droppedIn(solved).filter(firm)) {
          dropped++;
          const stronger = solved.network.gaps.filter(
            (g, i) =>
              g.strength === 'must' &&
              firm(i) &&
              (i === out ||
                (solved.standing[i] && (rank(i) > rank(out) || (rank(i) === rank(out) && i < out)))),
          );
          expect(holds(solved.network.points, stronger)).toBe(false);
        }
      }),
      { ...RUNS, seed: 2 },
    );
    expect(dropped).toBeGreaterThan(300);
  });
});

/** Musts that do not yield to it, the breached side with a day less, and the sides that cost more (or as much, but come later). */
function dearerThan(breach: Breach, standing: readonly Gap[], { network, solution }: Solved): Gap[] {
  const indices = [...network.gaps.keys()].filter((i) => standingGaps(network, solution)[i] !== null);
  const place = (index: number, side: 'lo' | 'hi') => 2 * index + (side === 'hi' ? 1 : 0);
  const keeps = (gap: Gap, index: number, side: 'lo' | 'hi') => {
    if (gap.strength === 'must') return (gap.yieldsAt ?? Infinity) >= breach.cost;
    const cost = (side === 'hi' ? gap.costHi : gap.costLo) ?? Infinity;
    if (cost !== breach.cost) return cost > breach.cost;
    return place(index, side) > place(breach.gap, breach.side);
  };
  return standing.flatMap((gap, i): Gap[] => {
    const index = indices[i]!;
    const lo = keeps(gap, index, 'lo') ? gap.lo : null;
    const hi = keeps(gap, index, 'hi') ? gap.hi : null;
    if (index !== breach.gap) return [{ ...gap, lo, hi }];
    const asked = loosen(network.gaps[index]!, breach.side, breach.byDays - 1);
    const only = breach.side === 'hi' ? { lo: null, hi: asked.hi } : { lo: asked.lo, hi: null };
    const other = breach.side === 'hi' ? { lo, hi: null } : { lo: null, hi };
    return [
      { ...gap, ...only },
      { ...gap, ...other },
    ];
  });
}

describe('a reported conflict', () => {
  it('is there for every breach, and its rules are minimal and short by the days said once that is undone', () => {
    fc.assert(
      fc.property(clashing, (solved) => {
        const { breaches, settled } = solved.solution;
        const { points } = solved.network;
        const undone = breaches.map((breach) => withLess(solved, breach));
        for (const gaps of undone) {
          const own = settled.filter((conflict) => isMinimal(conflict, points, gaps));
          expect(own.some((conflict) => conflict.shortDays >= shortBy(conflict, gaps))).toBe(true);
        }
        for (const conflict of settled) {
          const own = undone.filter((gaps) => isMinimal(conflict, points, gaps));
          expect(own.map((gaps) => shortBy(conflict, gaps))).toContain(conflict.shortDays);
        }
      }),
      RUNS,
    );
  });

  it('is there for every must dropped, minimal and short by the days said once that is put back', () => {
    let blocked = 0;
    fc.assert(
      fc.property(clashing, (solved) => {
        const { points } = solved.network;
        const putBack = droppedIn(solved).map((gap) => withBack(solved, gap));
        for (const gaps of putBack) {
          const own = solved.solution.blocked.filter((conflict) => isMinimal(conflict, points, gaps));
          expect(own.some((conflict) => conflict.shortDays >= shortBy(conflict, gaps))).toBe(true);
        }
        for (const conflict of solved.solution.blocked) {
          blocked++;
          const own = putBack.filter((gaps) => isMinimal(conflict, points, gaps));
          expect(own.map((gaps) => shortBy(conflict, gaps))).toContain(conflict.shortDays);
        }
      }),
      { ...RUNS, seed: 3 },
    );
    expect(blocked).toBeGreaterThan(300);
  });

  it('is listed once', () => {
    fc.assert(
      fc.property(clashing, ({ solution }) => {
        for (const list of [solution.settled, solution.blocked]) {
          const names = list.map(({ rules }) => [...rules].sort().join());
          expect(new Set(names).size).toBe(names.length);
        }
      }),
      RUNS,
    );
  });

  it('goes when any one bound of its cycle gives way by the days short, and not by a day less', () => {
    let single = 0;
    fc.assert(
      fc.property(clashing, (solved) => {
        const { breaches, settled } = solved.solution;
        fc.pre(breaches.length === 1 && settled.length === 1);
        const { rules, shortDays } = settled[0]!;
        const clash = withRules(withLess(solved, breaches[0]!), rules);
        fc.pre(clash.length === rules.length);
        single++;
        const given = (gap: number, side: 'lo' | 'hi', days: number) =>
          clash.map((g, i) => (i === gap ? loosen(g, side, days) : g));
        for (const { gap, side } of slowShortestCycle(clash)!.bounds) {
          expect(holds(solved.network.points, given(gap, side, shortDays))).toBe(true);
          expect(holds(solved.network.points, given(gap, side, shortDays - 1))).toBe(false);
        }
      }),
      { numRuns: 300, seed: 4 },
    );
    expect(single).toBe(300);
  });

  it('has one bound or more of each of its rules', () => {
    fc.assert(
      fc.property(clashing, ({ network, solution }) => {
        for (const { rules } of [...solution.settled, ...solution.blocked]) {
          for (const rule of rules)
            expect(boundsOf(withRules(network.gaps, [rule])).length).toBeGreaterThan(0);
        }
      }),
      RUNS,
    );
  });
});
