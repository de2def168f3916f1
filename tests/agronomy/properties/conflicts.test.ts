/** Conflicts of every season: rules that cannot all hold, none of them to spare, and short by the days said. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { networkOf } from '../../../src/agronomy/constraints.ts';
import { standingReports } from '../../../src/agronomy/facts.ts';
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import { problemOf } from '../../../src/agronomy/problem-of.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../../src/agronomy/season.ts';
import type { Gap, Network } from '../../../src/plan/network.ts';
import { solve } from '../../../src/plan/solve.ts';
import { slowDistances, slowShortestCycle } from '../../support/slow-solver.ts';
import { seasons, TODAY } from './any-season.ts';

/** Without days of rest and monthly warmth, whose bounds hang on a first plan. */
const plain = seasons.map(({ restDays: _, climate, ...season }): Season => {
  const { meanTemperatureC: __, ...rest } = climate ?? { source: '' };
  return { ...season, ...(climate && { climate: rest }) };
});

function networkFor(season: Season): Network {
  const sown = standingReports(season).find(({ activity }) => activity === 'sow-nursery')?.on ?? TODAY;
  return networkOf(problemOf(season, book, TODAY, sown));
}

const clashes = ({ points }: Network, gaps: readonly Gap[]) => slowDistances(points, gaps) === null;

it('cannot all hold, hold once any one is taken out, and are short by the days said', () => {
  let conflicts = 0;
  fc.assert(
    fc.property(plain, (season) => {
      const plan = planPlot(season, book, TODAY);
      if (plan.conflicts.length === 0) return;
      const network = networkFor(season);
      const standing = new Set(solve(network).gaps);
      const dropped = network.gaps.filter((gap) => gap.strength === 'must' && !standing.has(gap));
      for (const { rules, shortDays } of plan.conflicts) {
        conflicts++;
        const named = network.gaps.filter(({ rule }) => rules.includes(rule));
        expect(clashes(network, named)).toBe(true);
        // One rule may stand for several bounds: those of the others that were dropped are left out.
        const alone = dropped.map((back) => named.filter((gap) => gap === back || !dropped.includes(gap)));
        const minimal = alone.filter(
          (gaps) =>
            clashes(network, gaps) &&
            rules.every(
              (out) =>
                !clashes(
                  network,
                  gaps.filter(({ rule }) => rule !== out),
                ),
            ),
        );
        expect(minimal.map((gaps) => 0 - (slowShortestCycle(gaps)?.days ?? 0))).toContain(shortDays);
      }
    }),
    { numRuns: 400 },
  );
  expect(conflicts).toBeGreaterThan(30);
});

it('are each told once, none with all the rules of another in which the same one gives way', () => {
  fc.assert(
    fc.property(seasons, (season) => {
      const { conflicts } = planPlot(season, book, TODAY);
      const isWithin = (a: readonly string[], b: readonly string[]) => a.every((rule) => b.includes(rule));
      const pairs = conflicts.flatMap((a) =>
        conflicts.filter((b) => a !== b && a.rules[0] === b.rules[0] && isWithin(a.rules, b.rules)),
      );
      expect(pairs).toEqual([]);
    }),
    { numRuns: 1000 },
  );
});

it('are told whenever a rule that cannot be broken is dropped, and never else', () => {
  fc.assert(
    fc.property(plain, (season) => {
      const network = networkFor(season);
      const musts = network.gaps.filter(
        ({ strength, yieldsAt }) => strength === 'must' && yieldsAt === undefined,
      );
      const { conflicts } = planPlot(season, book, TODAY);
      if (clashes(network, musts)) expect(conflicts.length).toBeGreaterThan(0);
      if (!clashes(network, network.gaps)) expect(conflicts).toEqual([]);
    }),
    { numRuns: 150 },
  );
});
