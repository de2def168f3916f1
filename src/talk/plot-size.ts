/** A plot's size in the scheme's own unit of area, beside its hectares. */

import type { Message } from '../say/message.ts';
import { type AreaUnit, unitsIn } from '../scheme/area-unit.ts';
import type { World } from './world.ts';

/** With more plots in one text hectares must do, or it would take a part more. */
const MOST_SIZED = 3;

/**
 * What is said of a plot with its size behind it, "Plot 1 (2 tins)"; `said` alone in a scheme without a unit, for a size that is
 * hardly a part of one, and among more than three plots.
 */
export function withSize(world: World, said: Message, areaHa: number, plotCount: number): Message {
  const unit = world.scheme.areaUnit;
  const units = unit && plotCount <= MOST_SIZED ? unitsIn(areaHa, unit) : 0;
  if (!unit || units === 0) return said;
  return { key: 'plot.sized', values: { what: said, units, unit: wordFor(units, unit) } };
}

function wordFor(units: number, { words: [one = '', several = one] }: AreaUnit): string {
  return units === 1 ? one : several;
}
