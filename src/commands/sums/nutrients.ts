/** `sum nutrients`: what products to buy for a need, and when to put them on. */
import { USUAL_WAY, WAY_VALUES } from '../../agronomy/season.ts';
import { topdressesOf } from '../../agronomy/sums/dressings.ts';
import { nutrients } from '../../agronomy/sums/nutrients.ts';
import type { Nutrients, Product } from '../../agronomy/sums/products.ts';
import { named } from '../../agronomy/sums/products.ts';
import { isRefusal } from '../../agronomy/sums/sum.ts';
import { NUTRIENT_REFUSALS } from '../../scheme/nutrients-section.ts';
import {
  noneLeft,
  numberIfGiven,
  numberNeeded,
  type Option,
  readNumber,
  readOptions,
  wordIfGiven,
} from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

/** "120-60-40"; null for anything else. */
function readNutrients(text: string): Nutrients | null {
  const [n, p2o5, k2o, ...more] = text.split('-').map(readNumber);
  const all = [n, p2o5, k2o].every((one) => typeof one === 'number');
  return all && more.length === 0 ? [n ?? 0, p2o5 ?? 0, k2o ?? 0] : null;
}

/** "urea:46-0-0:50", a name, its N-P2O5-K2O in % and the kg of a bag, as a list of one; null for anything else. */
function readProduct(text: string): readonly Product[] | null {
  const [name = '', label = '', bag = '', ...more] = text.split(':');
  const [holds, bagKg] = [readNutrients(label), readNumber(bag)];
  if (name.trim() === '' || holds === null || bagKg === null || more.length > 0) return null;
  return [{ name: name.trim(), ...named(holds), bagKg }];
}

const need: Option<Nutrients, true> = {
  read: readNutrients,
  what: 'N-P2O5-K2O in kg/ha such as 120-60-40',
  needed: true,
};
const product: Option<readonly Product[], true> = {
  read: readProduct,
  what: 'a name, N-P2O5-K2O in % and kg a bag, such as urea:46-0-0:50',
  needed: true,
  many: true,
};

const OPTIONS = {
  area: numberNeeded,
  need,
  product,
  'manure-tonnes': numberIfGiven,
  way: wordIfGiven(WAY_VALUES.establishment),
};

export const NUTRIENTS: SumCommand = {
  usage: `--area HA --need N-P2O5-K2O (kg/ha) --product NAME:N-P2O5-K2O:BAG_KG (once for each) [--manure-tonnes TONNES] [--way ${WAY_VALUES.establishment.join('|')}]`,
  refusals: {
    ...NUTRIENT_REFUSALS,
    'nutrient-lacking': 'is needed, but no product holds it',
    'products-over': 'products are too many',
    'manure-range': 't of manure: under 0, or too much for the plot',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const left = noneLeft(given.bare);
    if (left) return left;
    const { area: areaHa, product: products, way: establishment = 'transplant', ...said } = given.values;
    const needKgPerHa = named(said.need);
    const tonnes = said['manure-tonnes'];
    const manure = tonnes === undefined ? {} : { manure: { tonnes } };
    // Beside how the crop is established, nothing of a way changes its top-dressings.
    const split = { topdresses: topdressesOf(book, { ...USUAL_WAY, establishment }) };
    const result = nutrients({ areaHa, needKgPerHa, products, ...manure, split }, book);
    if (isRefusal(result)) return result;
    return { needKgPerHa, products, ...(tonnes !== undefined && { manureTonnes: tonnes }), ...result };
  },
};
