/** The best flood date: by hand, and against every day of the span tried in turn. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bestFloodDate, type FloodDays, floodDateOn } from '../../../src/scheme/group/flood-date.ts';

const plot = (plotId: string, from: number | null, to: number | null, areaHa = 0.4): FloodDays => ({
  plotId,
  areaHa,
  days: { from, to },
});
const SPAN = { from: 0, to: 40 };

describe('by hand', () => {
  test('the day that most plots share, the earliest of them', () => {
    const found = bestFloodDate(
      [plot('a', 3, 10), plot('b', 8, 15), plot('c', 9, 20), plot('d', 30, 35)],
      SPAN,
    );
    expect(found).toEqual({
      on: 9,
      plots: 3,
      areaHa: expect.closeTo(1.2, 9),
      leftOut: [{ plotId: 'd', why: 'too-soon', byDays: 21 }],
    });
  });

  test('of as many plots those with more land', () => {
    const found = bestFloodDate([plot('a', 3, 5, 0.2), plot('b', 10, 12, 0.3)], SPAN);
    expect(found).toMatchObject({ on: 10, plots: 1, leftOut: [{ plotId: 'a', why: 'too-late', byDays: 5 }] });
  });

  test('a plot that no day suits is told as such, last', () => {
    const never: FloodDays = { plotId: 'n', areaHa: 1, days: null };
    const found = bestFloodDate([never, plot('a', null, 4), plot('b', 6, null), plot('c', 7, null)], SPAN);
    expect(found).toMatchObject({
      on: 7,
      leftOut: [
        { plotId: 'a', why: 'too-late', byDays: 3 },
        { plotId: 'n', why: 'never', byDays: 0 },
      ],
    });
  });

  test('no plots: the first day; no days: none', () => {
    expect(bestFloodDate([], SPAN)).toMatchObject({ on: 0, plots: 0 });
    expect(bestFloodDate([], { from: 3, to: 2 })).toBeNull();
  });
});

const end = fc.option(fc.integer({ min: -10, max: 60 }), { freq: 5 });
const plots = fc
  .array(fc.tuple(end, end, fc.integer({ min: 1, max: 200 }), fc.integer({ min: 0, max: 9 })), {
    maxLength: 30,
  })
  .map((all) =>
    all.map(([a, b, ares, never], i): FloodDays => {
      const [from, to] = a !== null && b !== null && a > b ? [b, a] : [a, b];
      return { plotId: `p${i}`, areaHa: ares / 100, days: never === 0 ? null : { from, to } };
    }),
  );

test('is what trying every day finds', () => {
  fc.assert(
    fc.property(
      plots,
      fc.integer({ min: 0, max: 20 }),
      fc.integer({ min: 0, max: 30 }),
      (all, from, length) => {
        const span = { from, to: from + length };
        const days = Array.from({ length: length + 1 }, (_, i) => floodDateOn(all, from + i));
        const best = days.reduce((most, one) => {
          const more = one.plots - most.plots || Math.round((one.areaHa - most.areaHa) * 10_000);
          return more > 0 ? one : most;
        });
        expect(bestFloodDate(all, span)).toEqual(best);
      },
    ),
    { numRuns: 500 },
  );
});
