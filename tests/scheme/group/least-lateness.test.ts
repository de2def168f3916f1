/** The order with the least latest piece: by hand, against every order, against a mixed-integer solver, and against a bound. */
import fc from 'fast-check';
import highsModule from 'highs';
import { describe, expect, test } from 'vitest';
import { leastLateness, mostPreempted, type Piece } from '../../../src/scheme/group/least-lateness.ts';

/** The package's types name its default twice. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

/** How late the latest is when pieces are done in this order, each as soon as it can. */
function latenessOf(pieces: readonly Piece[], order: readonly number[]): number {
  let [at, most] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const place of order) {
    const { release, due, takes } = pieces[place]!;
    at = Math.max(at, release) + takes;
    most = Math.max(most, at - due);
  }
  return most;
}

function* orders(left: readonly number[]): Generator<readonly number[]> {
  if (left.length === 0) yield [];
  for (const one of left)
    for (const rest of orders(left.filter((other) => other !== one))) yield [one, ...rest];
}

const pieces = (most: number): fc.Arbitrary<readonly Piece[]> =>
  fc.array(
    fc
      .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 30 }), fc.integer({ min: 1, max: 9 }))
      .map(([release, slack, takes]) => ({ release, due: release + slack, takes })),
    { minLength: 1, maxLength: most },
  );

describe('by hand', () => {
  test('the piece that is due first waits for none that can begin sooner but be later', () => {
    // Begun at 0, the long piece would make the short one, due at 3, two late; waiting till 1 makes the long one 1 late.
    const all = [
      { release: 0, due: 5, takes: 4 },
      { release: 1, due: 2, takes: 1 },
    ];
    expect(leastLateness(all)).toMatchObject({ order: [1, 0], starts: [1, 2], lateness: 1, bound: 1 });
  });

  test('nothing to do is not late', () => {
    expect(leastLateness([])).toEqual({ order: [], starts: [], lateness: 0, bound: 0 });
  });
});

test('is the best of all orders', () => {
  fc.assert(
    fc.property(pieces(7), (all) => {
      const best = Math.min(...[...orders([...all.keys()])].map((order) => latenessOf(all, order)));
      const found = leastLateness(all);
      expect(found.lateness).toBe(best);
      expect(found.bound).toBe(best);
      expect(latenessOf(all, found.order)).toBe(best);
    }),
    { numRuns: 150 },
  );
});

test('each piece is done once, none before its time, none while another is', () => {
  fc.assert(
    fc.property(pieces(40), (all) => {
      const { order, starts } = leastLateness(all);
      expect([...order].sort((a, b) => a - b)).toEqual([...all.keys()]);
      for (const [place, piece] of order.entries()) {
        const start = starts[place]!;
        expect(start).toBeGreaterThanOrEqual(all[piece]!.release);
        if (place > 0)
          expect(start).toBeGreaterThanOrEqual(starts[place - 1]! + all[order[place - 1]!]!.takes);
      }
    }),
  );
});

test('of two hundred pieces is no later than its bound, which is no less than with work left and taken up again', () => {
  const big = fc.array(
    fc
      .tuple(
        fc.integer({ min: 0, max: 600 }),
        fc.integer({ min: 0, max: 200 }),
        fc.integer({ min: 1, max: 9 }),
      )
      .map(([release, slack, takes]) => ({ release, due: release + slack, takes })),
    { minLength: 200, maxLength: 200 },
  );
  fc.assert(
    fc.property(big, (all) => {
      const { lateness, bound, order } = leastLateness(all);
      const latest = Math.max(...all.map(({ due }) => due));
      const least = mostPreempted(
        all.map(({ release }) => release),
        all.map(({ due }) => latest - due),
        all.map(({ takes }) => takes),
      );
      expect(latenessOf(all, order)).toBe(lateness);
      expect(lateness).toBe(bound);
      expect(bound).toBeGreaterThanOrEqual(least - latest);
    }),
    { numRuns: 20 },
  );
});

/** Of each two pieces one comes first: the usual model with a large number. */
function model(all: readonly Piece[]): string {
  const big =
    Math.max(...all.map(({ release }) => release)) + all.reduce((sum, { takes }) => sum + takes, 0) + 50;
  const pairs = all.flatMap((_, i) => all.slice(i + 1).map((__, k) => [i, i + 1 + k] as const));
  const rows = [
    ...all.map(({ due, takes }, i) => `late${i}: l - s${i} >= ${takes - due}`),
    ...pairs.flatMap(([i, j]) => [
      `a${i}_${j}: s${j} - s${i} - ${big} b${i}_${j} >= ${all[i]!.takes - big}`,
      `c${i}_${j}: s${i} - s${j} + ${big} b${i}_${j} >= ${all[j]!.takes}`,
    ]),
  ];
  const bounds = all.map(({ release }, i) => `s${i} >= ${release}`);
  const binaries = pairs.map(([i, j]) => `b${i}_${j}`);
  const binary = binaries.length > 0 ? `\nBinary\n${binaries.join(' ')}` : '';
  return `Minimize\nobj: l\nSubject To\n${rows.join('\n')}\nBounds\nl free\n${bounds.join('\n')}${binary}\nEnd\n`;
}

test('is what a mixed-integer solver finds', async () => {
  const highs = await loadHighs();
  for (const all of fc.sample(pieces(7), { numRuns: 25, seed: 6 })) {
    const solved = highs.solve(model(all));
    expect(solved.Status).toBe('Optimal');
    expect(leastLateness(all).lateness).toBeCloseTo(solved.ObjectiveValue, 5);
  }
}, 60_000);
