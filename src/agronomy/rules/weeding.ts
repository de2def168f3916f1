/** Two rounds of weeding, the same after planting as after sowing in the field. */
import type { Rule } from '../rulebook.ts';
import type { Activity } from '../season.ts';
import { fromMemory } from './sources.ts';

const ROUNDS = [
  { lo: 14, aim: 18, hi: 21 },
  { lo: 35, aim: 38, hi: 42 },
] as const;

/** The rules of both rounds, counted from the end of the step that plants the crop. */
export function weedingAfter(planting: Activity): readonly Rule[] {
  return ROUNDS.map((days, index) => ({
    name: 'weed',
    from: { activity: planting, at: 'end' },
    to: { activity: 'weed', at: 'start', round: index + 1 },
    ...days,
    strength: 'should',
    costLo: { rank: 3, name: 'out-of-order', text: 'the work is out of order' },
    costHi: { rank: 3, name: 'weeds-take', text: 'weeds take the food and the light' },
    sources: [fromMemory('weeds take most in the first six weeks')],
  }));
}
