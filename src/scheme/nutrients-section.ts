/** The part of a scheme file on fertiliser: what is recommended there, and what is sold. Bundline recommends nothing itself. */
import { z } from 'zod';
import type { Rulebook } from '../agronomy/rulebook.ts';
import { figure } from '../agronomy/rulebook.ts';
import { needRefusal } from '../agronomy/sums/nutrients.ts';
import { lackedNutrient, type NutrientKg, type Product, wrongProduct } from '../agronomy/sums/products.ts';
import type { PlacedMistake } from './placed-mistake.ts';

export interface SchemeNutrients {
  /** kg a hectare of N, P2O5 and K2O, and whose advice it is. */
  readonly recommendation?: NutrientKg & { readonly source: string };
  /** What can be bought. */
  readonly products: readonly Product[];
}

const percent = z.number().min(0).max(100).default(0);
const kgPerHa = z.number().min(0);

export const nutrientsSchema = z.strictObject({
  recommendation: z
    .strictObject({
      n: kgPerHa,
      p2o5: kgPerHa,
      k2o: kgPerHa,
      source: z.string('no number without a source').trim().min(1, 'no number without a source').max(200),
    })
    .exactOptional(),
  products: z
    .array(
      z.strictObject({
        /** As growers call it; it is said in texts. */
        name: z.string().trim().min(1).max(20),
        ...{ n: percent, p2o5: percent, k2o: percent },
        bagKg: z.number().positive(),
      }),
    )
    .min(1, 'at least one product'),
});

/** What products and needs are refused for, in words that follow the value. */
export const NUTRIENT_REFUSALS: Readonly<Record<string, string>> = {
  'need-range': 'kg/ha: no recommendation is under 0 or so high',
  'need-zero': 'kg/ha asks for nothing',
  'product-negative': '%: a product cannot hold less than nothing',
  'product-empty': '%: such a product holds no nutrient',
  'product-over': '%: a product cannot hold more than 100 % in all',
  'product-twice': 'is there twice',
  'bag-range': 'a bag cannot be',
};

/** Products that cannot be or are too many, and a recommendation of nothing, of too much, or of what no product holds. */
export function nutrientMistakes(
  nutrients: SchemeNutrients | undefined,
  book: Rulebook,
): readonly PlacedMistake[] {
  if (!nutrients) return [];
  const { products, recommendation } = nutrients;
  const most = figure(book, 'sum.products.max');
  if (products.length > most)
    return [{ path: ['nutrients', 'products'], what: `${products.length} products; at most ${most}` }];
  const wrong = wrongProduct(book, products);
  if (wrong) return [{ path: ['nutrients', 'products', wrong.index], what: inWords(wrong) }];
  if (!recommendation) return [];
  const path = ['nutrients', 'recommendation'];
  const refused = needRefusal(book, recommendation);
  if (refused) return [{ path, what: inWords(refused) }];
  const lacked = lackedNutrient(products, [recommendation.n, recommendation.p2o5, recommendation.k2o]);
  return lacked === null ? [] : [{ path, what: `${lacked} is recommended, but no product holds it` }];
}

const inWords = ({ refused, what }: { readonly refused: string; readonly what: string }) =>
  `${what} ${NUTRIENT_REFUSALS[refused] ?? refused}`;
