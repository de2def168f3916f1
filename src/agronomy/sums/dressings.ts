/** When fertiliser is put on: all phosphate and potash and a share of the nitrogen before planting, the rest in equal parts later. */
import { holds } from '../frame.ts';
import type { Rulebook } from '../rulebook.ts';
import type { Way } from '../season.ts';
import { heldBy, type NutrientKg, named, type Product } from './products.ts';

/** How feeding is split. */
export interface Split {
  /** How often the crop is top-dressed; 0 puts all on before planting. */
  readonly topdresses: number;
  /** The share of the nitrogen that goes on before planting, 0 to 1. */
  readonly basalShareN: number;
}

export interface ProductKg {
  readonly name: string;
  readonly kg: number;
}

export interface Dressing {
  readonly at: 'basal' | 'topdress';
  /** 1 for the basal dressing and the first top-dressing. */
  readonly round: number;
  /** Only products of which something is put on. */
  readonly products: readonly ProductKg[];
  readonly holdsKg: NutrientKg;
}

/** How many top-dressings a way of growing has. */
export const topdressesOf = (book: Rulebook, way: Way): number =>
  book.steps.filter(({ activity, when }) => activity === 'topdress' && holds(when, way)).length;

/**
 * Splits these kg of each product. What holds phosphate or potash goes on before planting, with its nitrogen; of what holds
 * nitrogen only, as much as its share still lacks. Dressings in which nothing is put on are left out.
 */
export function dressings(
  products: readonly Product[],
  kg: readonly number[],
  { topdresses, basalShareN }: Split,
): readonly Dressing[] {
  const early = basalPartOfN(products, kg, topdresses === 0 ? 1 : basalShareN);
  const basal = products.map((product, index) => (kg[index] ?? 0) * (isNitrogenOnly(product) ? early : 1));
  const later = kg.map((all, index) => (all - (basal[index] ?? 0)) / topdresses);
  return [
    dressing(products, basal, 'basal', 1),
    ...Array.from({ length: topdresses }, (_, round) => dressing(products, later, 'topdress', round + 1)),
  ].filter((one) => one.products.length > 0);
}

const isNitrogenOnly = ({ p2o5, k2o }: Product) => p2o5 === 0 && k2o === 0;

/** The part of the nitrogen-only products that goes on before planting, 0 to 1. */
function basalPartOfN(products: readonly Product[], kg: readonly number[], share: number): number {
  const [all] = heldBy(products, kg);
  const only = kg.map((amount, index) => (products[index] && isNitrogenOnly(products[index]) ? amount : 0));
  const [alone] = heldBy(products, only);
  if (alone === 0) return 0;
  return Math.min(1, Math.max(0, (share * all - (all - alone)) / alone));
}

function dressing(
  products: readonly Product[],
  kg: readonly number[],
  at: Dressing['at'],
  round: number,
): Dressing {
  return { at, round, products: productKg(products, kg), holdsKg: named(heldBy(products, kg)) };
}

/** Less than a gram is nothing. */
const NOTHING_KG = 1e-3;

/** The products of which there is something. */
export function productKg(products: readonly Product[], kg: readonly number[]): readonly ProductKg[] {
  return products.flatMap(({ name }, index): ProductKg[] => {
    const amount = kg[index] ?? 0;
    return amount < NOTHING_KG ? [] : [{ name, kg: amount }];
  });
}
