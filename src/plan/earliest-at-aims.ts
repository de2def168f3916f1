/** The days on which work would fall if nothing held it up and every wish were met: the plan to measure by. */
import type { Day } from './day.ts';
import { type Aim, type Gap, ORIGIN, wished } from './network.ts';

/**
 * The earliest day of each point when every aim is a lower bound too and no upper bound counts: the longest
 * path from the origin; null where none leads. Lower bounds that run in a circle are followed `points` times.
 */
export function earliestAtAims(
  points: number,
  gaps: readonly Gap[],
  aims: readonly Aim[],
): readonly (Day | null)[] {
  const days = new Float64Array(points).fill(-Infinity);
  days[ORIGIN] = 0;
  for (let round = 0, moved = true; moved && round < points; round++) {
    moved = false;
    for (const { from, to, lo } of gaps) {
      if (lo !== null && delay(days, to, days[from]! + lo)) moved = true;
    }
    for (const aim of aims) {
      if (days[aim.from] !== -Infinity && delay(days, aim.point, wished(aim, days[aim.from]!))) moved = true;
    }
  }
  return Array.from(days, (day) => (day === -Infinity ? null : day));
}

function delay(days: Float64Array, to: number, day: Day): boolean {
  if (to === ORIGIN || !(day > days[to]!)) return false;
  days[to] = day;
  return true;
}
