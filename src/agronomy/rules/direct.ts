/** Rules of a crop that is sown in the field as sprouted seed, on drained and level mud. No nursery, no planting. */
import type { Rule, When } from '../rulebook.ts';
import { COMMON, fromMemory, PHILRICE_SEED, SRI_LANKA_SEED, YOSHIDA } from './sources.ts';
import { weedingAfter } from './weeding.ts';

const SEEDED = fromMemory('wet seeding: sow pre-germinated seed within 1-2 days of levelling');
const irrigated: When = {
  water: ['irrigated'],
  tillage: ['hoe', 'animals', 'two-wheel'],
  establishment: ['wet-seed'],
};
const rainFed: When = { ...irrigated, water: ['rain-fed'] };
const ploughed: When = { tillage: ['hoe', 'animals', 'two-wheel'], establishment: ['wet-seed'] };
const unploughed: When = { tillage: ['none'], establishment: ['wet-seed'] };
const cost = (rank: number, name: string, text: string) => ({ rank, name, text });
const SOWN = { activity: 'sow-direct', at: 'start' } as const;
const SOWN_END = { activity: 'sow-direct', at: 'end' } as const;
const MISSED = cost(3, 'feed-missed', 'the feed misses its moment');

export const DIRECT: readonly Rule[] = [
  {
    name: 'direct-settle',
    from: { activity: 'level', at: 'end' },
    to: SOWN,
    lo: 1,
    aim: 1,
    hi: 2,
    strength: 'should',
    costLo: cost(7, 'seed-sinks', 'seed sinks in soft mud and rots'),
    costHi: cost(4, 'crust', 'weeds and a crust begin'),
    when: ploughed,
    sources: [SEEDED],
  },
  {
    name: 'plough-lead',
    from: { activity: 'plough', at: 'end' },
    to: SOWN,
    lo: 17,
    aim: 21,
    hi: 35,
    strength: 'should',
    costLo: cost(7, 'not-rotted', 'residues have not rotted'),
    costHi: cost(4, 'till-again', 'weeds return and the plot needs tilling again'),
    when: irrigated,
    sources: [fromMemory('as before transplanting: PhilRice 2007, PalayCheck')],
  },
  {
    name: 'plough-lead',
    from: { activity: 'plough', at: 'end' },
    to: SOWN,
    lo: 17,
    aim: 21,
    hi: null,
    strength: 'should',
    costLo: cost(7, 'not-rotted', 'residues have not rotted'),
    when: rainFed,
    sources: [fromMemory('as before transplanting: PhilRice 2007, PalayCheck')],
  },
  {
    name: 'hold',
    from: { activity: 'flood', at: 'start' },
    to: SOWN,
    lo: 30,
    aim: 30,
    hi: 60,
    strength: 'should',
    costLo: cost(8, 'not-rotted', 'residues have not rotted'),
    costHi: cost(4, 'long-flood', 'water is held longer than it needs to be'),
    when: unploughed,
    sources: [COMMON],
  },
  {
    name: 'pregerminate',
    from: { activity: 'pregerminate', at: 'start' },
    to: SOWN,
    lo: 2,
    aim: 2,
    hi: 3,
    strength: 'must',
    // Soaked seed is given up rather than the field spoilt.
    yieldsAt: 6,
    sources: [PHILRICE_SEED, SRI_LANKA_SEED],
  },
  ...weedingAfter('sow-direct'),
  {
    name: 'topdress',
    from: SOWN_END,
    to: { activity: 'topdress', at: 'start', round: 1 },
    lo: 14,
    aim: 18,
    hi: 21,
    strength: 'should',
    costLo: MISSED,
    costHi: MISSED,
    sources: [fromMemory('first split when tillers form, as after transplanting')],
  },
  {
    name: 'topdress',
    from: SOWN,
    to: { activity: 'topdress', at: 'start', round: 2 },
    lo: { of: 'panicle-direct', plus: -7 },
    aim: { of: 'panicle-direct', plus: -6 },
    hi: { of: 'panicle-direct', plus: -5 },
    strength: 'should',
    costLo: MISSED,
    costHi: MISSED,
    when: { ripens: ['by-days'] },
    sources: [YOSHIDA],
  },
  {
    name: 'direct-maturity',
    from: SOWN,
    to: { activity: 'harvest', at: 'start' },
    lo: { of: 'variety', plus: -3 },
    aim: { of: 'variety', plus: 0 },
    hi: { of: 'variety', plus: 7 },
    strength: 'should',
    costLo: cost(3, 'green-grain', 'grain is still green'),
    costHi: cost(3, 'grain-shed', 'grain sheds and birds take it'),
    when: { ripens: ['by-days'] },
    sources: [fromMemory("the variety's days as given, without the days lost to transplanting")],
  },
  {
    name: 'after-planting',
    from: SOWN_END,
    to: { activity: 'drain', at: 'start' },
    lo: 0,
    aim: null,
    hi: null,
    strength: 'must',
    sources: [COMMON],
  },
];
