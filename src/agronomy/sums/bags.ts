/**
 * Whole and half bags to buy: those that cover a need with the least too much. The search leaves nothing out, but it ends after
 * a fixed number of tries, which only very many bags of many products come to; then it says so.
 */
import { exactAmounts } from './exact-amounts.ts';
import { type LeastWorth, leastWorth } from './least-worth.ts';
import { type Nutrients, type Product, sharesOf, sumOf } from './products.ts';

/** Guards against rounding, in kg: a thousandth of a gram. */
const ROUNDING = 1e-6;

/** About a tenth of a second of work. */
const MOST_TRIES = 100_000;

/** Half a bag of a product. */
interface Half {
  readonly holds: Nutrients;
  readonly nutrients: number;
  readonly kg: number;
}

interface Purchase {
  readonly halves: readonly number[];
  readonly nutrients: number;
  readonly kg: number;
}

/** What is the same at every turn of the search: `rest[i]` are bounds for what products i, i + 1, ... must still bring. */
interface Search {
  readonly halves: readonly Half[];
  readonly rest: readonly { readonly nutrients: LeastWorth; readonly kg: LeastWorth }[];
  /** Sums of nutrients differ by multiples of it; 0 when there is no such step. */
  readonly step: number;
  triesLeft: number;
}

export interface Bags {
  /** Of each product, in halves of a bag: 3 is one and a half. */
  readonly halves: readonly number[];
  /** Whether it is known that nothing covers the need with less too much. */
  readonly isLeast: boolean;
}

/**
 * Bags of each product that cover the need in kg at the least nutrients too much, and among equals at the least weight. Null
 * when some nutrient is needed that no product holds.
 */
export function halfBags(products: readonly Product[], need: Nutrients): Bags | null {
  const exact = exactAmounts(products, need);
  if (!exact) return null;
  const halves = products.map(halfOf);
  const roundedUp = exact.map((kg, index) =>
    Math.max(0, Math.ceil(kg / (halves[index]?.kg ?? 1) - ROUNDING)),
  );
  const search: Search = {
    halves,
    rest: halves.map((_, index) => boundsOf(halves.slice(index))),
    step: commonStep(halves.map(({ nutrients }) => nutrients)),
    triesLeft: MOST_TRIES,
  };
  const none: Purchase = { halves: [], nutrients: 0, kg: 0 };
  const found = leastFrom(search, none, need, purchaseOf(halves, roundedUp));
  const isLeast = search.triesLeft > 0 || found.nutrients <= atLeast(search, none, need).nutrients + ROUNDING;
  return { halves: found.halves, isLeast };
}

function halfOf(product: Product): Half {
  const kg = product.bagKg / 2;
  const [n, p2o5, k2o] = sharesOf(product);
  const holds: Nutrients = [n * kg, p2o5 * kg, k2o * kg];
  return { holds, nutrients: sumOf(holds), kg };
}

function boundsOf(halves: readonly Half[]) {
  const holds = halves.map((half) => half.holds);
  return {
    nutrients: leastWorth(
      holds,
      halves.map(({ nutrients }) => nutrients),
    ),
    kg: leastWorth(
      holds,
      halves.map(({ kg }) => kg),
    ),
  };
}

function purchaseOf(halves: readonly Half[], bought: readonly number[]): Purchase {
  const sum = (part: 'nutrients' | 'kg') =>
    halves.reduce((all, half, index) => all + half[part] * (bought[index] ?? 0), 0);
  return { halves: bought, nutrients: sum('nutrients'), kg: sum('kg') };
}

/** The best purchase that begins with what is bought so far, or the best known before. The likeliest numbers are tried first. */
function leastFrom(search: Search, bought: Purchase, need: Nutrients, known: Purchase): Purchase {
  const half = search.halves[bought.halves.length];
  if (!half) return isBetter(bought, known) ? bought : known;
  let best = known;
  for (const { more, left } of tries(search, bought, half, need)) {
    if (search.triesLeft <= 0) return best;
    if (!isBetter(more.atLeast, best)) continue;
    best = leastFrom(search, more.bought, left, best);
  }
  return best;
}

interface Try {
  readonly more: { readonly bought: Purchase; readonly atLeast: Omit<Purchase, 'halves'> };
  readonly left: Nutrients;
}

/** Every number of halves of the next product that can be of use, the one with the least bound first. */
function tries(search: Search, bought: Purchase, half: Half, need: Nutrients): readonly Try[] {
  const length = mostHalves(half, need) + 1;
  search.triesLeft -= length;
  const all = Array.from({ length }, (_, many): Try => {
    const left = lessened(need, half, many);
    const more = {
      halves: [...bought.halves, many],
      nutrients: bought.nutrients + many * half.nutrients,
      kg: bought.kg + many * half.kg,
    };
    return { more: { bought: more, atLeast: atLeast(search, more, left) }, left };
  });
  return all
    .filter(({ more }) => Number.isFinite(more.atLeast.nutrients))
    .sort(
      (a, b) => a.more.atLeast.nutrients - b.more.atLeast.nutrients || a.more.atLeast.kg - b.more.atLeast.kg,
    );
}

/** More of a product than covers all that it holds is never of use. */
function mostHalves({ holds }: Half, need: Nutrients): number {
  const enough = holds.map((held, nutrient) =>
    held === 0 ? 0 : Math.ceil((need[nutrient] ?? 0) / held - ROUNDING),
  );
  return Math.max(0, ...enough);
}

function lessened(need: Nutrients, { holds }: Half, many: number): Nutrients {
  const left = (nutrient: 0 | 1 | 2) => {
    const kg = need[nutrient] - many * holds[nutrient];
    return kg > ROUNDING ? kg : 0;
  };
  return [left(0), left(1), left(2)];
}

/** Bounds of any purchase that begins so; the nutrients rounded up to the next sum that can be. */
function atLeast({ rest, step }: Search, bought: Purchase, left: Nutrients): Omit<Purchase, 'halves'> {
  const bounds = rest[bought.halves.length];
  const open = sumOf(left) > 0;
  if (!bounds) return open ? { nutrients: Number.POSITIVE_INFINITY, kg: Number.POSITIVE_INFINITY } : bought;
  const nutrients = bought.nutrients + bounds.nutrients(left);
  const rounded = step === 0 ? nutrients : step * Math.ceil(nutrients / step - ROUNDING);
  return { nutrients: rounded, kg: bought.kg + bounds.kg(left) };
}

function isBetter(one: Omit<Purchase, 'halves'>, other: Omit<Purchase, 'halves'>): boolean {
  if (Math.abs(one.nutrients - other.nutrients) > ROUNDING) return one.nutrients < other.nutrients;
  return one.kg < other.kg - ROUNDING;
}

/** Labels give hundredths of a percent at most, and bags tenths of a kg: half a bag holds multiples of 5 mg. */
const FINEST_PER_KG = 200_000;
/** A smaller step would be lost in rounding. */
const LEAST_STEP_KG = 0.001;

/** The largest step of which all values are multiples; 0 when they are finer than labels and bags are. */
function commonStep(values: readonly number[]): number {
  const fine = values.map((value) => value * FINEST_PER_KG);
  if (fine.some((value) => Math.abs(value - Math.round(value)) > 1e-4)) return 0;
  const step = fine.map(Math.round).reduce(commonDivisor, 0) / FINEST_PER_KG;
  return step < LEAST_STEP_KG ? 0 : step;
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
