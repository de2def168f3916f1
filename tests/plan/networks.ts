/** Random small networks: some can hold, some clash, some with rules that stand for several gaps. */
import fc from 'fast-check';
import type { Aim, Gap, Network, Solution } from '../../src/plan/network.ts';

const point = (points: number) => fc.nat({ max: points - 1 });
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { freq: 4, nil: undefined });

interface Draw {
  readonly from: number;
  readonly to: number;
  readonly before: number | null;
  readonly after: number | null;
  readonly strength: 'must' | 'should';
  readonly rule: number;
  readonly yieldsAt: number | undefined;
  readonly costs: readonly [number | undefined, number | undefined, number | undefined];
}

/** A gap drawn round the distance of two points in a hidden schedule; a negative slack may make it clash. */
const draw = (points: number): fc.Arbitrary<Draw> =>
  fc.record({
    from: point(points),
    to: point(points),
    before: fc.option(fc.integer({ min: -2, max: 9 }), { freq: 3 }),
    after: fc.option(fc.integer({ min: -2, max: 9 }), { freq: 3 }),
    strength: fc.constantFrom('must', 'should', 'should'),
    rule: fc.nat({ max: 8 }),
    yieldsAt: fc.oneof({ weight: 3, arbitrary: fc.constant(undefined) }, fc.nat({ max: 5 })),
    costs: fc.tuple(maybe(fc.nat({ max: 5 })), maybe(fc.nat({ max: 5 })), maybe(fc.nat({ max: 3 }))),
  });

function gapOf(drawn: Draw, days: readonly number[]): Gap {
  const { from, to, before, after, strength, rule, costs, yieldsAt } = drawn;
  const distance = from === to ? 0 : days[to]! - days[from]!;
  const [costLo, costHi, dropRank] = costs;
  return {
    from,
    to,
    lo: before === null ? null : distance - before,
    hi: after === null ? null : distance + after,
    strength,
    rule: `rule-${rule}`,
    ...(costLo === undefined ? {} : { costLo }),
    ...(costHi === undefined ? {} : { costHi }),
    ...(dropRank === undefined ? {} : { dropRank }),
    ...(yieldsAt === undefined || strength === 'should' ? {} : { yieldsAt }),
  };
}

/** Networks with a number of points in this range and up to twice as many gaps. */
const networksOf = (min: number, max: number): fc.Arbitrary<Network> =>
  fc
    .integer({ min, max })
    .chain((points) =>
      fc
        .tuple(
          fc.array(fc.integer({ min: -20, max: 20 }), { minLength: points, maxLength: points }),
          fc.array(draw(points), { minLength: Math.floor(min / 2), maxLength: 2 * points, size: 'max' }),
        )
        .map(([[, ...days], draws]) => ({ points, gaps: draws.map((drawn) => gapOf(drawn, [0, ...days])) })),
    );

export const networks = networksOf(3, 9);

/** Networks of a season's size. */
export const bigNetworks = networksOf(20, 40);

/** A network and aims for some of its points, now and then two for one point. */
export const networksWithAims: fc.Arbitrary<{ network: Network; aims: readonly Aim[] }> = networks.chain(
  (network) =>
    fc.record({
      network: fc.constant(network),
      aims: fc.array(
        fc.record({
          point: point(network.points),
          from: point(network.points),
          days: fc.integer({ min: -15, max: 15 }),
        }),
        { maxLength: network.points + 2 },
      ),
    }),
);

/** The gaps of a solution at their places in the network that was solved; null where a `must` was dropped. */
export function standingGaps(network: Network, solution: Solution): (Gap | null)[] {
  const breached = new Set(solution.breaches.map((breach) => breach.gap));
  let next = 0;
  return network.gaps.map((gap, index) => {
    const stands = breached.has(index) || solution.gaps[next] === gap;
    return stands ? solution.gaps[next++]! : null;
  });
}
