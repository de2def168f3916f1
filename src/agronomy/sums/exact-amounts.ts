/**
 * How many kg of each product give a plot what it needs, when a bag may be opened. With one product for each nutrient this is
 * the trade's way: phosphate and potash first, their nitrogen subtracted, the rest of the nitrogen last. Among more products
 * it takes those that give the least too much, then the fewest, then the least to carry.
 */
import { type Nutrients, type Product, sharesOf, sumOf } from './products.ts';
import { choices, solveEquations } from './small-equations.ts';

/** Guards against rounding, in kg: a thousandth of a gram. */
const ROUNDING = 1e-6;

interface Mix {
  /** kg of each product. */
  readonly kg: readonly number[];
  /** kg of nutrients in all; what is needed being the same for all mixes, the least has the least too much. */
  readonly nutrients: number;
  readonly products: number;
  readonly carried: number;
}

/** kg of each product that cover the need (kg); of no product more than there is, where that is given. Null when they cannot. */
export function exactAmounts(
  products: readonly Product[],
  need: Nutrients,
  there: readonly number[] = products.map(() => Number.POSITIVE_INFINITY),
): readonly number[] | null {
  return best(mixesWithin(products, need, there))?.kg ?? null;
}

/**
 * Of a product of which the best mix takes more than there is, some best mix within what is there takes all: so each such
 * product is used up in turn, and the rest found for what is still needed.
 */
function mixesWithin(
  products: readonly Product[],
  need: Nutrients,
  there: readonly number[],
): readonly Mix[] {
  const mix = best(openMixes(products, need));
  if (!mix) return [];
  const short = products.flatMap((_, index) =>
    (mix.kg[index] ?? 0) > (there[index] ?? 0) + ROUNDING ? [index] : [],
  );
  if (short.length === 0) return [mix];
  return short.flatMap((index) => {
    const used = there[index] ?? 0;
    const others = products.toSpliced(index, 1);
    const left = lessened(need, products[index], used);
    return mixesWithin(others, left, there.toSpliced(index, 1)).map(({ kg }) =>
      mixOf(products, kg.toSpliced(index, 0, used)),
    );
  });
}

const lessened = (need: Nutrients, product: Product | undefined, kg: number): Nutrients => {
  const shares: Nutrients = product ? sharesOf(product) : [0, 0, 0];
  const left = (nutrient: 0 | 1 | 2) => Math.max(0, need[nutrient] - shares[nutrient] * kg);
  return [left(0), left(1), left(2)];
};

/**
 * The corners of all mixes that cover the need: up to three products that meet as many nutrients exactly. Whatever is least
 * among all mixes is least at a corner.
 */
function openMixes(products: readonly Product[], need: Nutrients): readonly Mix[] {
  const shares = products.map(sharesOf);
  const indexes = [...products.keys()];
  const corners = [0, 1, 2, 3].flatMap((many) =>
    choices(indexes, many).flatMap((used) => choices([0, 1, 2] as const, many).map((met) => ({ used, met }))),
  );
  return corners.flatMap(({ used, met }) => {
    const rows = met.map((nutrient) => used.map((index) => shares[index]?.[nutrient] ?? 0));
    const amounts = solveEquations(
      rows,
      met.map((nutrient) => need[nutrient]),
    );
    if (!amounts || amounts.some((kg) => kg < -ROUNDING)) return [];
    const mix = mixOf(
      products,
      indexes.map((index) => Math.max(0, amounts[used.indexOf(index)] ?? 0)),
    );
    return covers(shares, mix.kg, need) ? [mix] : [];
  });
}

function covers(shares: readonly Nutrients[], kg: readonly number[], need: Nutrients): boolean {
  return need.every(
    (wanted, nutrient) =>
      kg.reduce((sum, amount, index) => sum + amount * (shares[index]?.[nutrient] ?? 0), 0) >=
      wanted - ROUNDING,
  );
}

function mixOf(products: readonly Product[], kg: readonly number[]): Mix {
  return {
    kg,
    nutrients: products.reduce((sum, product, index) => sum + sumOf(sharesOf(product)) * (kg[index] ?? 0), 0),
    products: kg.filter((amount) => amount > ROUNDING).length,
    carried: kg.reduce((sum, amount) => sum + amount, 0),
  };
}

/** The first of those that none is better than. */
function best(mixes: readonly Mix[]): Mix | null {
  return mixes.reduce<Mix | null>(
    (least, mix) => (least === null || isBetter(mix, least) ? mix : least),
    null,
  );
}

function isBetter(one: Mix, other: Mix): boolean {
  if (Math.abs(one.nutrients - other.nutrients) > ROUNDING) return one.nutrients < other.nutrients;
  if (one.products !== other.products) return one.products < other.products;
  return one.carried < other.carried - ROUNDING;
}
