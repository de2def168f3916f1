/** Fertiliser products as their bags say them, and what they hold. It names none: a scheme or a grower does. */
import { figure, type Rulebook } from '../rulebook.ts';
import { type Refusal, refusal } from './sum.ts';

/** N, P2O5 and K2O, in this order. */
export type Nutrients<T = number> = readonly [n: T, p2o5: T, k2o: T];
/** The same with a name each: kg, or kg a hectare. */
export interface NutrientKg {
  readonly n: number;
  readonly p2o5: number;
  readonly k2o: number;
}

export const named = ([n, p2o5, k2o]: Nutrients): NutrientKg => ({ n, p2o5, k2o });

export const NUTRIENT_NAMES: Nutrients<string> = ['N', 'P2O5', 'K2O'];

export interface Product {
  readonly name: string;
  /** Parts in a hundred. */
  readonly n: number;
  readonly p2o5: number;
  readonly k2o: number;
  readonly bagKg: number;
}

/** What 1 kg of the product holds, in kg. */
export const sharesOf = ({ n, p2o5, k2o }: Product): Nutrients => [n / 100, p2o5 / 100, k2o / 100];

export const sumOf = ([n, p2o5, k2o]: Nutrients): number => n + p2o5 + k2o;

/** What so many kg of each product hold together, in kg. */
export function heldBy(products: readonly Product[], kg: readonly number[]): Nutrients {
  const held = (nutrient: 0 | 1 | 2) =>
    products.reduce((sum, product, index) => sum + sharesOf(product)[nutrient] * (kg[index] ?? 0), 0);
  return [held(0), held(1), held(2)];
}

/** A product that cannot be: its place in the list, and what is wrong with it. */
export interface WrongProduct extends Refusal {
  readonly index: number;
}

/**
 * The first product that cannot be: less than nothing of a nutrient ("product-negative"), none of any ("product-empty"), more
 * than 100 % in all ("product-over"), a bag of 0 kg or of more than is sold ("bag-range"), a name again ("product-twice").
 */
export function wrongProduct(book: Rulebook, products: readonly Product[]): WrongProduct | null {
  for (const [index, product] of products.entries()) {
    const refused = refusalOf(book, product) ?? nameAgain(products, index);
    if (refused) return { index, ...refused };
  }
  return null;
}

function refusalOf(book: Rulebook, { name, bagKg, ...parts }: Product): Refusal | null {
  const percents = [parts.n, parts.p2o5, parts.k2o];
  const text = `${name} ${percents.join('-')}`;
  const all = percents.reduce((sum, percent) => sum + percent, 0);
  if (!percents.every((percent) => percent >= 0)) return refusal('product-negative', text);
  if (all === 0) return refusal('product-empty', text);
  if (all > 100) return refusal('product-over', text);
  return bagKg > 0 && bagKg <= figure(book, 'sum.bag.max')
    ? null
    : refusal('bag-range', `${name} ${bagKg} kg`);
}

function nameAgain(products: readonly Product[], index: number): Refusal | null {
  const name = products[index]?.name ?? '';
  const first = products.findIndex((one) => one.name === name);
  return first < index ? refusal('product-twice', name) : null;
}

/** The first nutrient that is needed and that no product holds; null when each can be had. */
export function lackedNutrient(products: readonly Product[], need: Nutrients): string | null {
  const lacked = need.findIndex(
    (kg, nutrient) => kg > 0 && !products.some((product) => (sharesOf(product)[nutrient] ?? 0) > 0),
  );
  return NUTRIENT_NAMES[lacked] ?? null;
}
