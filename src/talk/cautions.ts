/** Short cautions for work that can hurt: each is given once on a phone, with the first text about such a step. */
import type { Activity, Way } from '../agronomy/season.ts';
import type { Effect } from './effect.ts';
import type { Part } from './turn.ts';
import type { World } from './world.ts';

type Caution = 'tiller' | 'animals' | 'heat' | 'water' | 'fertiliser';

/** The caution for a step, null when the step has none. Leptospirosis in rice farmers: PMC4216579; the rest is common practice, hand-washing from memory. */
export function cautionFor(activity: Activity, tillage: Way['tillage']): Caution | null {
  switch (activity) {
    case 'plough':
    case 'puddle':
      if (tillage === 'two-wheel') return 'tiller';
      return tillage === 'animals' ? 'animals' : 'heat';
    case 'clear':
      return 'heat';
    case 'flood':
    case 'transplant':
    case 'sow-direct':
    case 'gap-fill':
    case 'weed':
      return 'water';
    case 'basal':
    case 'topdress':
      return 'fertiliser';
    default:
      return null;
  }
}

/** The first caution among these steps that this phone has not had yet; an empty part when there is none. */
export function caution(
  world: World,
  steps: readonly { readonly activity: Activity; readonly tillage: Way['tillage'] }[],
): Part {
  for (const { activity, tillage } of steps) {
    const name = cautionFor(activity, tillage);
    if (name === null || world.cautioned.includes(name)) continue;
    const effects: readonly Effect[] = [{ do: 'cautioned', activity: name }];
    return { say: [{ key: `caution.${name}` }], effects };
  }
  return { say: [] };
}
