/** The day to open a canal whose plots take turns: each plot's day of flooding is that of its turn, not the opening day. */
import type { Day } from '../../plan/day.ts';
import { type FloodDate, type FloodDays, leftOutOn, nearestFirst, type Span } from './flood-date.ts';

/** The day on which each plot's turn begins when the canal opens on a day; a plot without a turn is missing. */
export type TurnDays = (opening: Day) => ReadonlyMap<string, Day>;

/**
 * The opening day with the most plots, then the most land, then the earliest; null for a span of no days. Every day is tried:
 * rest days and closures stretch the turns differently from each. A plot without a turn is left out as `no-turn`.
 */
export function bestByTurns(plots: readonly FloodDays[], span: Span, turnDays: TurnDays): FloodDate | null {
  let best: FloodDate | null = null;
  for (let on = span.from; on <= span.to; on += 1) {
    const found = byTurnsOn(plots, on, turnDays(on));
    if (!best || found.plots > best.plots || (found.plots === best.plots && hasMoreLand(found, best)))
      best = found;
  }
  return best;
}

/** What an opening day means for every plot, each on the day of its turn. */
export function byTurnsOn(plots: readonly FloodDays[], on: Day, turns: ReadonlyMap<string, Day>): FloodDate {
  const leftOut = plots.flatMap((plot) => {
    const day = turns.get(plot.plotId);
    return day === undefined
      ? [{ plotId: plot.plotId, why: 'no-turn' as const, byDays: 0 }]
      : leftOutOn(plot, day);
  });
  const out = new Set(leftOut.map(({ plotId }) => plotId));
  const kept = plots.filter(({ plotId }) => !out.has(plotId));
  const areaHa = kept.reduce((sum, plot) => sum + plot.areaHa, 0);
  return { on, plots: kept.length, areaHa, leftOut: nearestFirst(leftOut) };
}

/** A square metre or less is no difference. */
const M2_HA = 1e-4;
const hasMoreLand = (a: FloodDate, b: FloodDate) => a.areaHa > b.areaHa + M2_HA;
