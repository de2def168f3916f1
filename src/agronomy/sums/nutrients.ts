/**
 * From a need of nutrients to kg of products, to bags, to dressings. The need is a scheme's recommendation or a figure that
 * was given: it is never ours.
 */
import { figure, type Rulebook } from '../rulebook.ts';
import { halfBags } from './bags.ts';
import { areaRefusal, notANumber } from './check-input.ts';
import { type Dressing, dressings, type ProductKg, productKg, type Split } from './dressings.ts';
import { exactAmounts } from './exact-amounts.ts';
import {
  heldBy,
  lackedNutrient,
  NUTRIENT_NAMES,
  type NutrientKg,
  type Nutrients,
  named,
  type Product,
  sumOf,
  wrongProduct,
} from './products.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';

export interface NutrientTerms {
  readonly areaHa: number;
  /** kg a hectare, and who recommends it. */
  readonly needKgPerHa: NutrientKg & { readonly source?: string };
  readonly products: readonly Product[];
  /** Manure that is put on the plot, in all. */
  readonly manure?: { readonly tonnes: number };
  /** The rulebook's share before planting where none is given. */
  readonly split: Pick<Split, 'topdresses'> & Partial<Split>;
}

export interface BagsOf extends ProductKg {
  /** Whole and half bags. */
  readonly bags: number;
}

export interface NutrientSum extends Founded {
  readonly areaHa: number;
  /** What the plot needs, before manure. */
  readonly needKg: NutrientKg;
  /** Nitrogen that the manure brings to this crop, no more than is needed. */
  readonly manureNKg: number;
  /** What exactly covers the rest, if bags are opened and shared. */
  readonly exact: readonly ProductKg[];
  readonly buy: readonly BagsOf[];
  /** What the bags hold, also as P and K. */
  readonly boughtKg: NutrientKg & { readonly p: number; readonly k: number };
  /** Nutrients in the bags beyond the need, together. */
  readonly overKg: number;
  /** Whether no whole and half bags have less too much: known but for very many bags of many products. */
  readonly isLeast: boolean;
  /** What of the bags is put on, and when; the rest is kept. */
  readonly dressings: readonly Dressing[];
  readonly kept: readonly ProductKg[];
}

/**
 * The plot's fertiliser. 120-60-40 kg/ha on 1 ha of products 46-0-0, 0-16-0 and 0-0-58 is 260.9, 375 and 69 kg. Refuses an
 * area that is none; a need under 0 or that none asks for ("need-range"), of nothing ("need-zero"), or of what no product
 * holds ("nutrient-lacking"); products that cannot be, none ("products-none") or too many ("products-over"); manure under 0
 * or too much ("manure-range"); a split that is none ("split-range").
 */
export function nutrients(terms: NutrientTerms, book: Rulebook): NutrientSum | Refusal {
  const refused = refusalOf(terms, book);
  if (refused) return refused;
  const { areaHa, products, needKgPerHa, manure } = terms;
  const needKg: Nutrients = [needKgPerHa.n * areaHa, needKgPerHa.p2o5 * areaHa, needKgPerHa.k2o * areaHa];
  const manureNKg = Math.min(needKg[0], manureN(book, manure?.tonnes ?? 0));
  const rest: Nutrients = [needKg[0] - manureNKg, needKg[1], needKg[2]];
  const exact = exactAmounts(products, rest);
  const bags = halfBags(products, rest);
  if (!exact || !bags) return refusal('nutrient-lacking', lackedNutrient(products, rest) ?? '');
  const bagsKg = products.map(({ bagKg }, index) => ((bags.halves[index] ?? 0) * bagKg) / 2);
  const used = exactAmounts(products, rest, bagsKg) ?? bagsKg;
  const basalShareN = terms.split.basalShareN ?? figure(book, 'nutrient.basal-n');
  const bought = heldBy(products, bagsKg);
  return {
    areaHa,
    needKg: named(needKg),
    manureNKg,
    exact: productKg(products, exact),
    buy: productKg(products, bagsKg).map((one) => ({ ...one, bags: one.kg / bagKgOf(products, one) })),
    boughtKg: { ...named(bought), ...elements(book, bought) },
    overKg: sumOf(bought) - sumOf(rest),
    isLeast: bags.isLeast,
    dressings: dressings(products, used, { ...terms.split, basalShareN }),
    kept: productKg(
      products,
      bagsKg.map((kg, index) => kg - (used[index] ?? 0)),
    ),
    ...foundedOf(terms, book),
  };
}

function foundedOf({ needKgPerHa, manure, split }: NutrientTerms, book: Rulebook): Founded {
  const figures = [
    ...(split.basalShareN === undefined ? ['nutrient.basal-n'] : []),
    ...(manure ? ['manure.n', 'manure.n-this-crop'] : []),
    'nutrient.p-in-p2o5',
    'nutrient.k-in-k2o',
  ];
  const { source } = needKgPerHa;
  return founded(book, figures, ...(source === undefined ? [] : [{ text: source, mark: 'scheme' as const }]));
}

const manureN = (book: Rulebook, tonnes: number) =>
  tonnes * figure(book, 'manure.n') * figure(book, 'manure.n-this-crop');

/** Phosphorus and potassium in so much P2O5 and K2O. */
const elements = (book: Rulebook, [, p2o5, k2o]: Nutrients) => ({
  p: p2o5 * figure(book, 'nutrient.p-in-p2o5'),
  k: k2o * figure(book, 'nutrient.k-in-k2o'),
});

const bagKgOf = (products: readonly Product[], { name }: ProductKg) =>
  products.find((product) => product.name === name)?.bagKg ?? 1;

function refusalOf(terms: NutrientTerms, book: Rulebook): Refusal | null {
  const { areaHa, needKgPerHa, manure, split, products } = terms;
  const none = areaRefusal(book, areaHa) ?? needRefusal(book, needKgPerHa) ?? productsRefusal(book, products);
  if (none) return none;
  const lacked = lackedNutrient(products, [needKgPerHa.n, needKgPerHa.p2o5, needKgPerHa.k2o]);
  if (lacked !== null) return refusal('nutrient-lacking', lacked);
  const tonnes = manure?.tonnes ?? 0;
  if (!(tonnes >= 0 && tonnes / areaHa <= figure(book, 'sum.manure.max')))
    return refusal('manure-range', tonnes);
  const { topdresses, basalShareN = 0 } = split;
  const can = Number.isInteger(topdresses) && topdresses >= 0 && basalShareN >= 0 && basalShareN <= 1;
  return can ? null : refusal('split-range', `${topdresses} and ${basalShareN}`);
}

/** A need that is no number, under 0, more than any asks for, or of nothing; null when it can be. */
export function needRefusal(book: Rulebook, { n, p2o5, k2o }: NutrientKg): Refusal | null {
  const need = [n, p2o5, k2o];
  const none = notANumber(...need);
  if (none) return none;
  const wrong = need.findIndex((kg) => kg < 0 || kg > figure(book, 'sum.need.max'));
  if (wrong >= 0) return refusal('need-range', `${need[wrong]} ${NUTRIENT_NAMES[wrong]}`);
  return need.every((kg) => kg === 0) ? refusal('need-zero', need.join('-')) : null;
}

/** No products, too many, or one that cannot be; null when a sum can be made of them. */
function productsRefusal(book: Rulebook, products: readonly Product[]): Refusal | null {
  if (products.length === 0) return refusal('products-none', 'products');
  if (products.length > figure(book, 'sum.products.max')) return refusal('products-over', products.length);
  const wrong = wrongProduct(book, products);
  return wrong && { refused: wrong.refused, what: wrong.what };
}
