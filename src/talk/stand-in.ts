/** A plot that is nobody's, grown in the scheme's usual way: for the sum of an area that somebody without plots asks for. */
import { figure } from '../agronomy/rulebook.ts';
import { USUAL_WAY } from '../agronomy/season.ts';
import type { PlotWorld, World } from './world.ts';

/** Null in a scheme without blocks. */
export function standIn({ scheme, rulebook }: World): PlotWorld | null {
  const [block] = scheme.blocks;
  if (!block) return null;
  const ids = { id: 'stand-in', ownerId: '', blockId: block.id, seasonId: '' };
  return {
    ...ids,
    number: '',
    label: null,
    season: {
      way: { ...USUAL_WAY, ...block.way },
      areaHa: 1,
      varietyDays: figure(rulebook, 'variety.usual'),
      blockWater: block.water,
      target: block.target,
      reports: [],
    },
  };
}
