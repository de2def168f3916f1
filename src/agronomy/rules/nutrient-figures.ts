/** Figures on nutrients: how feeding is split, what manure gives, what oxides hold. Needs are never ours: a scheme gives them. */
import type { Figure } from '../rulebook.ts';
import { figureOf } from './figure-of.ts';
import { fromMemory, judgement, KANPUR, published } from './sources.ts';

const VIRGINIA_TECH = published('Virginia Tech SPES-201NP Table 1');
const slip = (what: string) => judgement(`${what}: more is most likely a slip`);

export const NUTRIENT_FIGURES: Readonly<Record<string, Figure>> = {
  'nutrient.basal-n': figureOf(0.5, 'share', KANPUR),
  'nutrient.p-in-p2o5': figureOf(0.4364, 'share', VIRGINIA_TECH),
  'nutrient.k-in-k2o': figureOf(0.8301, 'share', VIRGINIA_TECH),
  'manure.n': figureOf(6, 'kg N/t', fromMemory('DEFRA tables: all the N of cattle farmyard manure')),
  'manure.n-this-crop': figureOf(
    0.1,
    'share',
    published('DEFRA tables: 5 to 15 % of the N of manure reaches the crop that it is put on for'),
  ),
  'sum.need.max': figureOf(400, 'kg/ha', slip('no recommendation for rice asks for so much of a nutrient')),
  'sum.manure.max': figureOf(100, 't/ha', slip('no plot is given so much')),
  'sum.bag.max': figureOf(1000, 'kg', slip('no larger bag is sold')),
  'sum.products.max': figureOf(6, 'products', judgement('no scheme sells more kinds for one crop')),
};
