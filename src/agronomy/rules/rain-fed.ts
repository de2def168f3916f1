/** What differs where no canal brings water: rain is held behind the bunds, and the work waits until enough has fallen. */
import type { RainGate, Rule, When } from '../rulebook.ts';
import { BUNDS, COMMON, judgement } from './sources.ts';

const ploughed: When = { water: ['rain-fed'], tillage: ['hoe', 'animals', 'two-wheel'] };
const unploughed: When = { water: ['rain-fed'], tillage: ['none'] };
const OUT_OF_ORDER = { rank: 7, name: 'out-of-order', text: 'the work is out of order' };

export const RAIN_FED: readonly Rule[] = [
  {
    name: 'hold-rain',
    from: { activity: 'soak', at: 'start' },
    to: { activity: 'plough', at: 'start' },
    lo: 0,
    aim: 0,
    hi: null,
    strength: 'should',
    costLo: OUT_OF_ORDER,
    when: ploughed,
    sources: [BUNDS],
  },
];

/**
 * Ploughing waits for soft soil, puddling for a soaked one, and so does planting in soil that is not ploughed. Seed waits for the puddling's
 * rain, unless the usual rain of the place tells when that will come: then only for rains that have begun.
 */
export const RAIN_GATES: readonly RainGate[] = [
  { rule: 'rain-soft', activity: 'plough', figure: 'rainfall.soft', when: ploughed },
  { rule: 'rain-puddle', activity: 'puddle', figure: 'rainfall.puddle', when: ploughed },
  { rule: 'rain-stands', activity: 'transplant', figure: 'rainfall.puddle', when: unploughed },
  { rule: 'rain-stands', activity: 'sow-direct', figure: 'rainfall.puddle', when: unploughed },
  {
    rule: 'rain-seed',
    activity: 'pregerminate',
    figure: 'rainfall.puddle',
    figureIfExpected: 'rainfall.soft',
    when: { water: ['rain-fed'] },
  },
];

export const SEED_WAITS: readonly Rule[] = [
  seedWaits('soak', { tillage: ['hoe', 'animals', 'two-wheel'] }),
  seedWaits('flood', { tillage: ['none'] }),
];

/** Soaked seed cannot wait, so the plot has its first water before seed is soaked. */
function seedWaits(first: 'soak' | 'flood', when: When): Rule {
  return {
    name: 'seed-waits',
    from: { activity: first, at: 'start' },
    to: { activity: 'pregerminate', at: 'start' },
    lo: 0,
    aim: null,
    hi: null,
    strength: 'should',
    costLo: { rank: 1, name: 'seed-early', text: 'the plot may not be ready for the seedlings' },
    whileOpen: true,
    when,
    sources: [COMMON, judgement('the first water shows that the field work can go on')],
  };
}
