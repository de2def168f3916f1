/** Fertiliser against published doses, the trade's own order of reckoning, and what holds for any need. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { topdressesOf } from '../../../src/agronomy/sums/dressings.ts';
import { exactAmounts } from '../../../src/agronomy/sums/exact-amounts.ts';
import { type NutrientSum, type NutrientTerms, nutrients } from '../../../src/agronomy/sums/nutrients.ts';
import { heldBy, type Nutrients, named, type Product } from '../../../src/agronomy/sums/products.ts';
import { season } from '../../support/seasons.ts';
import { made, refusedAs } from '../../support/sums.ts';

const product = (name: string, n: number, p2o5: number, k2o: number, bagKg = 50): Product => ({
  name,
  n,
  p2o5,
  k2o,
  bagKg,
});
const UREA = product('urea', 46, 0, 0);
const SSP = product('ssp', 0, 16, 0);
const MOP = product('mop', 0, 0, 58);
const COMPOUND = product('compound', 14, 14, 14);
const DAP = product('dap', 18, 46, 0);
const NEED: Nutrients = [120, 60, 40];
const TERMS: NutrientTerms = {
  areaHa: 1,
  needKgPerHa: named(NEED),
  products: [UREA, SSP, MOP],
  split: { topdresses: 2 },
};
const sum = (change: Partial<NutrientTerms> = {}) => made(nutrients({ ...TERMS, ...change }, book));
const kgOf = (list: NutrientSum['exact'], name: string) => list.find((one) => one.name === name)?.kg ?? 0;

describe('exact kg', () => {
  // A published dose exercise: 120-60-40 from urea 46 %, single superphosphate 16 %, potash 58 %: 260.9, 375 and 69 kg/ha.
  it('of three straight products', () => {
    const { exact } = sum();
    expect(exact.map(({ name }) => name)).toEqual(['urea', 'ssp', 'mop']);
    expect(kgOf(exact, 'urea')).toBeCloseTo(260.9, 1);
    expect(kgOf(exact, 'ssp')).toBeCloseTo(375, 6);
    expect(kgOf(exact, 'mop')).toBeCloseTo(69, 1);
  });

  // Masagana 99 box, PIDS DPS 05-14 p. 16: 4 bags of 14-14-14 and 2 of urea (45 %), of 50 kg, are 73-28-28.
  it('and bags of a compound and urea', () => {
    const { exact, buy, boughtKg } = sum({
      needKgPerHa: { n: 73, p2o5: 28, k2o: 28 },
      products: [product('urea', 45, 0, 0), COMPOUND],
    });
    expect(kgOf(exact, 'compound')).toBeCloseTo(200, 6);
    expect(kgOf(exact, 'urea')).toBeCloseTo(100, 6);
    expect(buy).toMatchObject([
      { name: 'urea', bags: 2 },
      { name: 'compound', bags: 4 },
    ]);
    expect(boughtKg).toMatchObject({ n: 73, p2o5: expect.closeTo(28, 9), k2o: expect.closeTo(28, 9) });
  });

  /** The trade's order: phosphate and potash by their sources, their nitrogen subtracted, the rest by the nitrogen source. */
  function inOrder([n, p, k]: Nutrients, ofP: Product, ofK: Product, ofN: Product): readonly number[] {
    const pKg = (p / ofP.p2o5) * 100;
    const kKg = (k / ofK.k2o) * 100;
    const stillN = Math.max(0, n - (pKg * ofP.n + kKg * ofK.n) / 100);
    return [pKg, kKg, (stillN / ofN.n) * 100];
  }
  const needs = fc.tuple(...[200, 100, 100].map((most) => fc.integer({ min: 0, max: most })));
  const percents = fc.integer({ min: 5, max: 50 });

  it('are those of the trade’s order where each nutrient has one source', () => {
    const sources = fc.tuple(percents, percents, percents, percents, percents);
    fc.assert(
      fc.property(needs, sources, ([n = 0, p = 0, k = 0], [nOfP, pOfP, nOfK, kOfK, nOfN]) => {
        const ofP = product('p', nOfP, pOfP, 0);
        const ofK = product('k', nOfK, 0, kOfK);
        const ofN = product('n', nOfN, 0, 0);
        const found = exactAmounts([ofP, ofK, ofN], [n, p, k]);
        for (const [index, kg] of inOrder([n, p, k], ofP, ofK, ofN).entries())
          expect(found?.[index]).toBeCloseTo(kg, 5);
      }),
    );
  });

  // By hand: the phosphate of 10-60-0 brings 60 / 0.46 x 0.18 = 23.5 kg of N: more than is asked for, and no urea.
  it('are never under nothing where the phosphate brings too much nitrogen', () => {
    const { exact } = sum({ needKgPerHa: { n: 10, p2o5: 60, k2o: 0 }, products: [UREA, DAP] });
    expect(exact).toEqual([{ name: 'dap', kg: expect.closeTo(60 / 0.46, 6) }]);
  });

  it('take the compound only as far as it brings nothing in vain', () => {
    const { exact, boughtKg } = sum({
      needKgPerHa: { n: 14, p2o5: 28, k2o: 14 },
      products: [COMPOUND, SSP],
    });
    expect(kgOf(exact, 'compound')).toBeCloseTo(100, 6);
    expect(kgOf(exact, 'ssp')).toBeCloseTo(14 / 0.16, 6);
    expect(boughtKg.n).toBeCloseTo(14, 9);
  });

  it('cover every need with nothing too much where they can, whatever is sold', () => {
    const products = [UREA, SSP, MOP, COMPOUND, DAP];
    fc.assert(
      fc.property(needs, ([n = 0, p = 0, k = 0]) => {
        const held = heldBy(products, exactAmounts(products, [n, p, k]) ?? []);
        for (const [index, kg] of [n, p, k].entries()) expect(held[index]).toBeCloseTo(kg, 5);
      }),
    );
  });
});

describe('manure', () => {
  // DEFRA tables: 6 kg of N in a tonne of cattle farmyard manure (from memory), about 10 % of it for this crop: 0.6 kg.
  it('spares nitrogen only', () => {
    const with2 = sum({ areaHa: 0.4, manure: { tonnes: 2 } });
    expect(with2.manureNKg).toBeCloseTo(1.2, 12);
    expect(kgOf(with2.exact, 'urea')).toBeCloseTo((0.4 * 120 - 1.2) / 0.46, 6);
    expect(kgOf(with2.exact, 'ssp')).toBeCloseTo(150, 6);
  });

  it('never spares more than is needed', () => {
    const much = sum({
      needKgPerHa: { n: 5, p2o5: 0, k2o: 0 },
      products: [UREA],
      manure: { tonnes: 20 },
    });
    expect(much).toMatchObject({ manureNKg: 5, exact: [], buy: [], dressings: [], overKg: 0 });
  });
});

describe('dressings', () => {
  // IIT Kanpur agropedia: half the N and all P and K at the last puddling.
  it('put half of the nitrogen on first, and the rest in two', () => {
    const { dressings } = sum();
    expect(dressings.map(({ at, round, holdsKg }) => [at, round, Math.round(holdsKg.n)])).toEqual([
      ['basal', 1, 60],
      ['topdress', 1, 30],
      ['topdress', 2, 30],
    ]);
    expect(dressings[0]?.holdsKg).toMatchObject({ p2o5: expect.closeTo(60, 6), k2o: expect.closeTo(40, 6) });
    expect(dressings[1]?.products.map(({ name }) => name)).toEqual(['urea']);
  });

  it('count what the compound brings towards the first share', () => {
    const [basal] = sum({
      products: [UREA, COMPOUND, SSP, MOP],
      split: { topdresses: 1, basalShareN: 0.1 },
    }).dressings;
    const compound = basal?.products.find(({ name }) => name === 'compound')?.kg ?? 0;
    expect(compound * 0.14).toBeGreaterThan(12);
    expect(basal?.products.map(({ name }) => name)).not.toContain('urea');
  });

  it('are one where nothing is put on later', () => {
    expect(sum({ split: { topdresses: 0 } }).dressings).toMatchObject([
      { at: 'basal', holdsKg: { n: expect.closeTo(120, 6) } },
    ]);
  });

  it('are as many as the way has', () => {
    expect(topdressesOf(book, season().way)).toBe(2);
    const none = { ...book, steps: book.steps.filter(({ round }) => round !== 2) };
    expect(topdressesOf(none, season().way)).toBe(1);
  });
});

describe('for any plot', () => {
  const terms = fc.record({
    areaHa: fc.double({ min: 0.05, max: 2, noNaN: true }),
    needKgPerHa: fc.record({
      n: fc.integer({ min: 1, max: 200 }),
      p2o5: fc.integer({ min: 0, max: 100 }),
      k2o: fc.integer({ min: 0, max: 100 }),
    }),
    products: fc.subarray([COMPOUND, DAP, product('nk', 12, 0, 40)]).map((some) => [UREA, SSP, MOP, ...some]),
    split: fc.record({
      topdresses: fc.integer({ min: 0, max: 3 }),
      basalShareN: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
    manure: fc.record({ tonnes: fc.integer({ min: 0, max: 5 }) }),
  });
  const NUTRIENT = ['n', 'p2o5', 'k2o'] as const;

  it('dressings and what is kept are the bags, and cover the need', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const found = sum(one);
        for (const { name, kg } of found.buy) {
          const put = found.dressings
            .flatMap(({ products }) => products)
            .filter((part) => part.name === name);
          const all = put.reduce((total, part) => total + part.kg, kgOf(found.kept, name));
          expect(Math.abs(all - kg)).toBeLessThan(0.01);
        }
        for (const nutrient of NUTRIENT) {
          const put = found.dressings.reduce((total, { holdsKg }) => total + holdsKg[nutrient], 0);
          const spared = nutrient === 'n' ? found.manureNKg : 0;
          expect(put).toBeGreaterThan(found.needKg[nutrient] - spared - 0.01);
          expect(found.boughtKg[nutrient]).toBeGreaterThan(found.needKg[nutrient] - spared - 1e-5);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('bags come whole or in halves, and phosphate and potash go on first', () => {
    fc.assert(
      fc.property(terms, (one) => {
        const { buy, dressings } = sum(one);
        for (const { bags } of buy) expect(2 * bags).toBeCloseTo(Math.round(2 * bags), 9);
        for (const { at, holdsKg } of dressings)
          if (at === 'topdress') expect(holdsKg.p2o5 + holdsKg.k2o).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  it('twice the area is twice the exact kg', () => {
    fc.assert(
      fc.property(terms, ({ manure: _, ...one }) => {
        const [single, double] = [sum(one), sum({ ...one, areaHa: 2 * one.areaHa })];
        expect(double.exact.map(({ name }) => name)).toEqual(single.exact.map(({ name }) => name));
        for (const { name, kg } of single.exact) expect(kgOf(double.exact, name)).toBeCloseTo(2 * kg, 4);
      }),
      { numRuns: 60 },
    );
  });
});

// Virginia Tech SPES-201NP Table 1: P is 0.4364 of P2O5, K 0.8301 of K2O; so by the weights of the atoms (chemistry).
it('tells phosphorus and potassium beside their oxides', () => {
  const { boughtKg } = sum();
  expect(boughtKg.p / boughtKg.p2o5).toBeCloseTo((2 * 30.974) / (2 * 30.974 + 5 * 15.999), 3);
  expect(boughtKg.k / boughtKg.k2o).toBeCloseTo((2 * 39.098) / (2 * 39.098 + 15.999), 3);
});

it('names the recommendation’s source, and the figures that it took', () => {
  const { sources, assumptions } = sum({ needKgPerHa: { n: 90, p2o5: 0, k2o: 0, source: 'Valley office' } });
  expect(sources).toContainEqual(expect.stringContaining('Valley office'));
  expect(assumptions.map(({ name }) => name)).toContain('nutrient.basal-n');
  const given = sum({ split: { topdresses: 2, basalShareN: 0.4 } }).assumptions.map(({ name }) => name);
  expect(given).not.toContain('nutrient.basal-n');
});

it.each<[string, Partial<NutrientTerms>]>([
  ['area-zero: 0', { areaHa: 0 }],
  ['need-zero: 0-0-0', { needKgPerHa: { n: 0, p2o5: 0, k2o: 0 } }],
  ['need-range: -1 N', { needKgPerHa: { n: -1, p2o5: 0, k2o: 0 } }],
  ['need-range: 500 K2O', { needKgPerHa: { n: 1, p2o5: 0, k2o: 500 } }],
  ['not-a-number: NaN', { needKgPerHa: { n: Number.NaN, p2o5: 0, k2o: 0 } }],
  ['nutrient-lacking: K2O', { products: [UREA, SSP] }],
  ['products-none: products', { products: [] }],
  ['products-over: 7', { products: [UREA, SSP, MOP, COMPOUND, DAP, UREA, SSP] }],
  ['product-over: wrong 50-50-1', { products: [product('wrong', 50, 50, 1)] }],
  ['product-negative: wrong -1-5-0', { products: [product('wrong', -1, 5, 0)] }],
  ['product-negative: wrong NaN-5-0', { products: [product('wrong', Number.NaN, 5, 0)] }],
  ['product-empty: wrong 0-0-0', { products: [product('wrong', 0, 0, 0)] }],
  ['bag-range: wrong 0 kg', { products: [product('wrong', 46, 0, 0, 0)] }],
  ['bag-range: wrong 2000 kg', { products: [product('wrong', 46, 0, 0, 2000)] }],
  ['product-twice: urea', { products: [UREA, SSP, MOP, UREA] }],
  ['manure-range: -1', { manure: { tonnes: -1 } }],
  ['manure-range: 101', { manure: { tonnes: 101 } }],
  ['split-range: 1.5 and 0', { split: { topdresses: 1.5 } }],
  ['split-range: 1 and 2', { split: { topdresses: 1, basalShareN: 2 } }],
])('%s is refused', (refused, change) => {
  expect(refusedAs(nutrients({ ...TERMS, ...change }, book))).toBe(refused);
});
