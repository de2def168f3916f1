/** The day to let water onto a block: the one that most of its plots can be flooded from with all their rules kept. */
import type { Day } from '../../plan/day.ts';

/** The days on which a plot's flooding can begin so that all its rules are kept; null on a side that is open. */
export interface FloodDays {
  readonly plotId: string;
  readonly areaHa: number;
  /** Null where no day keeps all rules. */
  readonly days: { readonly from: Day | null; readonly to: Day | null } | null;
}

/** A plot that a day leaves out: it comes so many days too soon or too late for it; `never` has no day at all, `no-turn` no water. */
export interface LeftOut {
  readonly plotId: string;
  readonly why: 'too-soon' | 'too-late' | 'never' | 'no-turn';
  /** 0 for `never` and `no-turn`. */
  readonly byDays: number;
}

export interface FloodDate {
  readonly on: Day;
  readonly plots: number;
  readonly areaHa: number;
  /** The nearest first. */
  readonly leftOut: readonly LeftOut[];
}

/** The days that may be chosen, both included. */
export interface Span {
  readonly from: Day;
  readonly to: Day;
}

/**
 * The day with the most plots, then the most area, then the earliest; null for a span of no days. Found exactly: the sum of
 * plots changes only where an interval begins or ends, so one sweep over these days sees every sum there is. 10,000 plots take
 * one sort.
 */
export function bestFloodDate(plots: readonly FloodDays[], span: Span): FloodDate | null {
  if (span.from > span.to) return null;
  const on = bestDay(changes(plots, span), span.from);
  return floodDateOn(plots, on);
}

/** What a day means for every plot. */
export function floodDateOn(plots: readonly FloodDays[], on: Day): FloodDate {
  const leftOut = plots.flatMap((plot) => leftOutOn(plot, on));
  const out = new Set(leftOut.map(({ plotId }) => plotId));
  const kept = plots.filter(({ plotId }) => !out.has(plotId));
  return {
    on,
    plots: kept.length,
    areaHa: kept.reduce((sum, { areaHa }) => sum + areaHa, 0),
    leftOut: nearestFirst(leftOut),
  };
}

/** Those that are out by the fewest days first, those that no day suits last. */
export const nearestFirst = (leftOut: readonly LeftOut[]) => leftOut.toSorted((a, b) => rank(a) - rank(b));

const rank = ({ why, byDays }: LeftOut) =>
  why === 'never' || why === 'no-turn' ? Number.POSITIVE_INFINITY : byDays;

/** Empty when the day suits the plot. */
export function leftOutOn({ plotId, days }: FloodDays, on: Day): LeftOut[] {
  if (days === null) return [{ plotId, why: 'never', byDays: 0 }];
  if (days.from !== null && on < days.from) return [{ plotId, why: 'too-soon', byDays: days.from - on }];
  if (days.to !== null && on > days.to) return [{ plotId, why: 'too-late', byDays: on - days.to }];
  return [];
}

/** On this day so many plots and hectares come in (or go, below 0). Area in square metres, whole, so that sums are exact. */
interface Change {
  readonly on: Day;
  readonly plots: number;
  readonly m2: number;
}

const M2_PER_HA = 10_000;

/** Where plots come in and go, within the span, in the order of days. */
function changes(plots: readonly FloodDays[], span: Span): readonly Change[] {
  return plots
    .flatMap(({ days, areaHa }): Change[] => {
      if (days === null) return [];
      const from = Math.max(days.from ?? span.from, span.from);
      const to = Math.min(days.to ?? span.to, span.to);
      if (from > to) return [];
      const m2 = Math.round(areaHa * M2_PER_HA);
      return [
        { on: from, plots: 1, m2 },
        { on: to + 1, plots: -1, m2: -m2 },
      ];
    })
    .toSorted((a, b) => a.on - b.on);
}

function bestDay(all: readonly Change[], first: Day): Day {
  let best = { on: first, plots: 0, m2: 0 };
  let [plots, m2] = [0, 0];
  for (const [i, change] of all.entries()) {
    plots += change.plots;
    m2 += change.m2;
    const isLastOfDay = all[i + 1]?.on !== change.on;
    const isBetter = plots > best.plots || (plots === best.plots && m2 > best.m2);
    if (isLastOfDay && isBetter) best = { on: change.on, plots, m2 };
  }
  return best.on;
}
