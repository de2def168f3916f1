/** The opening day by turns: by hand, and no other day may be better when every plot is looked at by itself. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bestByTurns, byTurnsOn } from '../../../src/scheme/group/best-by-turns.ts';
import { bestFloodDate, type FloodDays } from '../../../src/scheme/group/flood-date.ts';

const plot = (plotId: string, from: number | null, to: number | null, areaHa = 0.4): FloodDays => ({
  plotId,
  areaHa,
  days: { from, to },
});
/** Plots "a", "b", … take so many days each, one after the other. */
const inTurn = (plots: readonly FloodDays[], days: number) => (on: number) =>
  new Map(plots.map(({ plotId }, place) => [plotId, on + place * days]));

test('each plot is judged on the day of its turn', () => {
  const plots = [plot('a', 5, 6), plot('b', 8, 9), plot('c', 11, 12)];
  const found = bestByTurns(plots, { from: 0, to: 20 }, inTurn(plots, 3));
  expect(found).toMatchObject({ on: 5, plots: 3, leftOut: [] });
});

test('a plot whose turn comes too soon or too late falls out by so many days', () => {
  const plots = [plot('a', 5, 5), plot('b', 9, 12), plot('c', 0, 7)];
  expect(byTurnsOn(plots, 5, inTurn(plots, 3)(5))).toMatchObject({
    plots: 1,
    leftOut: [
      { plotId: 'b', why: 'too-soon', byDays: 1 },
      { plotId: 'c', why: 'too-late', byDays: 4 },
    ],
  });
});

test('a plot that gets no turn is left out', () => {
  const plots = [plot('a', 0, 9), plot('b', 0, 9)];
  const found = bestByTurns(plots, { from: 0, to: 3 }, (on) => new Map([['a', on]]));
  expect(found).toMatchObject({ on: 0, plots: 1, leftOut: [{ plotId: 'b', why: 'no-turn' }] });
});

test('without days there is none', () => {
  expect(bestByTurns([], { from: 3, to: 2 }, () => new Map())).toBeNull();
});

const end = fc.integer({ min: 0, max: 40 });
const someDays = fc
  .array(fc.tuple(end, end, fc.integer({ min: 1, max: 200 })), { minLength: 1, maxLength: 12 })
  .map((all) => all.map(([a, b, ares], i) => plot(`p${i}`, Math.min(a, b), Math.max(a, b), ares / 100)));

test('no day of the span has more plots, or as many with more land, or the same sooner', () => {
  fc.assert(
    fc.property(someDays, fc.integer({ min: 0, max: 4 }), (plots, days) => {
      const turns = inTurn(plots, days);
      const best = bestByTurns(plots, { from: 0, to: 45 }, turns)!;
      const score = (on: number) => {
        let [count, m2] = [0, 0];
        for (const { plotId, days: window, areaHa } of plots) {
          const at = turns(on).get(plotId) ?? 0;
          if (at < window!.from! || at > window!.to!) continue;
          count += 1;
          m2 += Math.round(areaHa * 10_000);
        }
        return count * 1e9 + m2;
      };
      for (let on = 0; on <= 45; on += 1) {
        expect(score(on)).toBeLessThanOrEqual(score(best.on));
        if (on < best.on) expect(score(on)).toBeLessThan(score(best.on));
      }
    }),
  );
});

test('where all plots get their water on the opening day, it is the day of the sweep', () => {
  fc.assert(
    fc.property(someDays, (plots) => {
      const span = { from: 0, to: 45 };
      expect(bestByTurns(plots, span, inTurn(plots, 0))?.on).toBe(bestFloodDate(plots, span)?.on);
    }),
  );
});
