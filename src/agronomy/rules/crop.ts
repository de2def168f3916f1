/** Rules of the nursery and of the crop after planting. Days that follow the variety are written as quantities. */
import type { Bound, Quantity, Rule } from '../rulebook.ts';
import {
  fromMemory,
  IIRR,
  PHILRICE_SEED,
  PHILRICE_TRANSPLANT,
  published,
  SRI_LANKA_SEED,
  YOSHIDA,
  YOSHIDA_SHOCK,
} from './sources.ts';

const after = (of: Quantity, plus: number, atLeast?: number): Bound =>
  atLeast === undefined ? { of, plus } : { of, plus, atLeast };

export const NURSERY: readonly Rule[] = [
  {
    name: 'pregerminate',
    from: { activity: 'pregerminate', at: 'start' },
    to: { activity: 'sow-nursery', at: 'start' },
    lo: 2,
    aim: 2,
    hi: 3,
    strength: 'must',
    sources: [PHILRICE_SEED, SRI_LANKA_SEED],
  },
  {
    name: 'seedling-age',
    from: { activity: 'sow-nursery', at: 'start' },
    to: { activity: 'transplant', at: 'start' },
    lo: after('seedling-age', -4, 12),
    aim: after('seedling-age', 0),
    hi: after('seedling-age', 10),
    strength: 'should',
    costLo: { rank: 5, name: 'seedlings-small', text: 'seedlings are small and drown' },
    costHi: { rank: 6, name: 'few-tillers', text: 'old seedlings tiller poorly' },
    sources: [IIRR],
  },
  {
    name: 'seedling-old',
    from: { activity: 'sow-nursery', at: 'start' },
    to: { activity: 'transplant', at: 'end' },
    lo: null,
    aim: null,
    hi: 40,
    strength: 'must',
    yieldsAt: 6,
    sources: [published('Pakistan trial 2008-09, abstract (evidence is mixed: Mupeta; Cao 2021)')],
  },
];

const WEEDS = [fromMemory('weeds take most in the first six weeks')];
const unweeded = { rank: 3, name: 'weeds-take', text: 'weeds take the food and the light' };

export const AFTER_PLANTING: readonly Rule[] = [
  {
    name: 'gap-fill',
    from: { activity: 'transplant', at: 'end' },
    to: { activity: 'gap-fill', at: 'end' },
    lo: 3,
    aim: 5,
    hi: 7,
    strength: 'should',
    costLo: { rank: 3, name: 'out-of-order', text: 'the work is out of order' },
    costHi: { rank: 3, name: 'hills-behind', text: 'new hills do not catch up' },
    sources: [PHILRICE_TRANSPLANT],
  },
  ...[
    [14, 18, 21],
    [35, 38, 42],
  ].map(
    ([lo, aim, hi], index): Rule => ({
      name: 'weed',
      from: { activity: 'transplant', at: 'end' },
      to: { activity: 'weed', at: 'start', round: index + 1 },
      lo: lo ?? null,
      aim: aim ?? null,
      hi: hi ?? null,
      strength: 'should',
      costLo: { rank: 3, name: 'out-of-order', text: 'the work is out of order' },
      costHi: unweeded,
      sources: WEEDS,
    }),
  ),
  {
    name: 'topdress',
    from: { activity: 'transplant', at: 'end' },
    to: { activity: 'topdress', at: 'start', round: 1 },
    lo: 14,
    aim: 18,
    hi: 21,
    strength: 'should',
    costLo: { rank: 3, name: 'feed-missed', text: 'the feed misses its moment' },
    costHi: { rank: 3, name: 'feed-missed', text: 'the feed misses its moment' },
    sources: [YOSHIDA],
  },
  {
    name: 'topdress',
    from: { activity: 'sow-nursery', at: 'start' },
    to: { activity: 'topdress', at: 'start', round: 2 },
    lo: after('panicle-initiation', -7),
    aim: after('panicle-initiation', -6),
    hi: after('panicle-initiation', -5),
    strength: 'should',
    costLo: { rank: 3, name: 'feed-missed', text: 'the feed misses its moment' },
    costHi: { rank: 3, name: 'feed-missed', text: 'the feed misses its moment' },
    sources: [YOSHIDA, published('Masagana 99 box, PIDS DPS 05-14: 5-7 days before panicle initiation')],
  },
  {
    name: 'maturity',
    from: { activity: 'sow-nursery', at: 'start' },
    to: { activity: 'harvest', at: 'start' },
    lo: after('maturity', -3),
    aim: after('maturity', 0),
    hi: after('maturity', 7),
    strength: 'should',
    costLo: { rank: 3, name: 'green-grain', text: 'grain is still green' },
    costHi: { rank: 3, name: 'grain-shed', text: 'grain sheds and birds take it' },
    sources: [YOSHIDA_SHOCK, published('Rashid, IRRI Dhaka 2011: recovery 5-7 days warm')],
  },
  {
    name: 'drain',
    from: { activity: 'drain', at: 'start' },
    to: { activity: 'harvest', at: 'start' },
    lo: 7,
    aim: 10,
    hi: 15,
    strength: 'should',
    costLo: { rank: 3, name: 'soft-ground', text: 'the ground is soft at harvest' },
    costHi: { rank: 2, name: 'dry-early', text: 'grain fills less when dry too early' },
    sources: [published('IRRI: 7-10 days'), published('RKMP: 10-15 days')],
  },
  {
    name: 'after-planting',
    from: { activity: 'transplant', at: 'end' },
    to: { activity: 'drain', at: 'start' },
    lo: 0,
    aim: null,
    hi: null,
    strength: 'must',
    sources: [published('IRRI, three growth phases: draining comes when the grain fills')],
  },
];
