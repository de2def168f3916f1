/** Whole and half bags against a general-purpose solver on many random needs and products. */
import fc from 'fast-check';
import highsModule, { type Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { halfBags } from '../../../src/agronomy/sums/bags.ts';
import { exactAmounts } from '../../../src/agronomy/sums/exact-amounts.ts';
import {
  heldBy,
  lackedNutrient,
  type Nutrients,
  type Product,
  sharesOf,
  sumOf,
} from '../../../src/agronomy/sums/products.ts';

/** Its types are written for CommonJS; as a module, the default export is the loader itself. */
const loadHighs = highsModule as unknown as typeof highsModule.default;
let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

const [CONTINUOUS, INTEGER] = [0, 1] as const;

/** Nutrients in the least purchase of so many units of each product (kg a unit), by the solver; null when none covers the need. */
function leastNutrients(
  products: readonly Product[],
  unitsKg: readonly number[],
  need: Nutrients,
  kind: typeof CONTINUOUS | typeof INTEGER,
  most: readonly number[] = products.map(() => highs.infinity),
): number | null {
  const held = products.map((product, index) =>
    sharesOf(product).map((share) => share * (unitsKg[index] ?? 0)),
  );
  const data = {
    numCols: products.length,
    numRows: 3,
    colCost: held.map(([n = 0, p = 0, k = 0]) => n + p + k),
    colLower: products.map(() => 0),
    colUpper: most,
    rowLower: need,
    rowUpper: need.map(() => highs.infinity),
    integrality: products.map(() => kind),
    matrix: {
      format: 'csr' as const,
      numRows: 3,
      numCols: products.length,
      starts: [0, 1, 2, 3].map((row) => row * products.length),
      indices: need.flatMap(() => products.map((_, index) => index)),
      values: need.flatMap((_, nutrient) => held.map((one) => one[nutrient] ?? 0)),
    },
  };
  return highs.withModel(data, (model) => {
    model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0 });
    model.run();
    if (model.getModelStatus() !== highs.constants.modelStatus.optimal) return null;
    const units = model.getSolution().colValue;
    return held.reduce((sum, one, index) => {
      const many = kind === INTEGER ? Math.round(units[index] ?? 0) : (units[index] ?? 0);
      return sum + many * one.reduce((all, kg) => all + kg, 0);
    }, 0);
  });
}

const percent = fc.oneof(
  { weight: 2, arbitrary: fc.constant(0) },
  { weight: 2, arbitrary: fc.integer({ min: 1, max: 33 }) },
  { weight: 1, arbitrary: fc.integer({ min: 10, max: 330 }).map((tenths) => tenths / 10) },
);
const products = fc
  .array(fc.tuple(percent, percent, percent, fc.constantFrom(10, 25, 40, 50)), { minLength: 1, maxLength: 5 })
  .map((list) =>
    list
      .filter(([n, p2o5, k2o]) => n + p2o5 + k2o > 0)
      .map(([n, p2o5, k2o, bagKg], index): Product => ({ name: `p${index}`, n, p2o5, k2o, bagKg })),
  )
  .filter((list) => list.length > 0);
const kg = (most: number) =>
  fc.oneof(
    fc.constant(0),
    fc.integer({ min: 1, max: most * 10 }).map((tenths) => tenths / 10),
  );
const needs = fc.tuple(kg(60), kg(40), kg(40));

const kgOf = (list: readonly Product[], halves: readonly number[]) =>
  list.map(({ bagKg }, index) => ((halves[index] ?? 0) * bagKg) / 2);

describe('bags', () => {
  it('cover every need, and nothing that covers it has less too much', () => {
    let proven = 0;
    fc.assert(
      fc.property(products, needs, (list, need) => {
        const bags = halfBags(list, need);
        const least = leastNutrients(
          list,
          list.map(({ bagKg }) => bagKg / 2),
          need,
          INTEGER,
        );
        expect(bags === null).toBe(lackedNutrient(list, need) !== null);
        expect(least === null).toBe(bags === null);
        if (bags === null || least === null) return;
        const held = heldBy(list, kgOf(list, bags.halves));
        for (const [index, wanted] of need.entries()) expect(held[index]).toBeGreaterThan(wanted - 1e-5);
        if (bags.isLeast) {
          proven += 1;
          expect(sumOf(held)).toBeCloseTo(least, 3);
        } else {
          expect(sumOf(held)).toBeGreaterThan(least - 1e-3);
        }
      }),
      { numRuns: 250 },
    );
    expect(proven).toBeGreaterThan(100);
  });

  // By hand: half a bag of each of a and b holds 5 kg of N; a weighs 25 kg, b 50.
  it('of the same too much are those that are less to carry', () => {
    const light = { name: 'light', n: 20, p2o5: 0, k2o: 0, bagKg: 50 };
    const heavy = { name: 'heavy', n: 10, p2o5: 0, k2o: 0, bagKg: 100 };
    expect(halfBags([heavy, light], [20, 0, 0])).toEqual({ halves: [0, 4], isLeast: true });
    expect(halfBags([light, heavy], [20, 0, 0])).toEqual({ halves: [4, 0], isLeast: true });
  });

  it('of very many and six odd products still cover the need, but are not said to be the least', () => {
    const odd = [
      [46.3, 0, 0],
      [14.7, 13.9, 14.2],
      [18.1, 45.9, 0],
      [0, 0.3, 59.7],
      [20.9, 0, 0.1],
      [0.1, 16.4, 0],
    ].map(([n = 0, p2o5 = 0, k2o = 0], index): Product => ({ name: `p${index}`, n, p2o5, k2o, bagKg: 50 }));
    const need: Nutrients = [1200, 600, 400];
    const bags = halfBags(odd, need);
    expect(bags?.isLeast).toBe(false);
    const held = heldBy(odd, kgOf(odd, bags?.halves ?? []));
    for (const [index, wanted] of need.entries()) expect(held[index]).toBeGreaterThan(wanted - 1e-5);
    expect(sumOf(held)).toBeLessThan(2200 * 1.02);
  });
});

describe('exact kg', () => {
  it('have no more too much than the solver’s', () => {
    fc.assert(
      fc.property(products, needs, (list, need) => {
        const exact = exactAmounts(list, need);
        const least = leastNutrients(
          list,
          list.map(() => 1),
          need,
          CONTINUOUS,
        );
        expect(least === null).toBe(exact === null);
        if (exact === null || least === null) return;
        const held = heldBy(list, exact);
        for (const [index, wanted] of need.entries()) expect(held[index]).toBeGreaterThan(wanted - 1e-5);
        expect(sumOf(held)).toBeCloseTo(least, 3);
      }),
      { numRuns: 300 },
    );
  });

  it('out of bags are no more than the bags hold, and no other use of them has less too much', () => {
    fc.assert(
      fc.property(
        products,
        needs,
        fc.array(fc.nat(30), { minLength: 5, maxLength: 5 }),
        (list, need, extra) => {
          const bags = halfBags(list, need);
          if (bags === null) return;
          const there = kgOf(list, bags.halves).map((all, index) => all + (extra[index] ?? 0));
          const used = exactAmounts(list, need, there);
          const ones = list.map(() => 1);
          const least = leastNutrients(list, ones, need, CONTINUOUS, there);
          if (used === null || least === null) throw new Error('the bags do not cover the need');
          for (const [index, amount] of used.entries())
            expect(amount).toBeLessThan((there[index] ?? 0) + 1e-4);
          const held = heldBy(list, used);
          for (const [index, wanted] of need.entries()) expect(held[index]).toBeGreaterThan(wanted - 1e-4);
          expect(sumOf(held)).toBeCloseTo(least, 3);
        },
      ),
      { numRuns: 200 },
    );
  });
});
