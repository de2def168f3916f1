/** A slow, obvious solver of temporal networks, to check the fast one by. It shares no code with it. */
import type { Gap } from '../../src/plan/network.ts';

/** One bound `to - from <= days`, the side of one gap. */
export interface Bound {
  readonly from: number;
  readonly to: number;
  readonly days: number;
  readonly gap: number;
  readonly side: 'lo' | 'hi';
}

/** Every gap as one or two bounds. */
export function boundsOf(gaps: readonly Gap[]): Bound[] {
  return gaps.flatMap(({ from, to, lo, hi }, gap): Bound[] => [
    ...(hi === null ? [] : [{ from, to, days: hi, gap, side: 'hi' as const }]),
    ...(lo === null ? [] : [{ from: to, to: from, days: 0 - lo, gap, side: 'lo' as const }]),
  ]);
}

/**
 * The most days from each point to each other (Infinity: no bound), by trying every point as a stop on the way
 * until nothing gets shorter; null when some point would come before itself.
 */
export function slowDistances(points: number, gaps: readonly Gap[]): number[][] | null {
  const all = Array.from({ length: points }, (_, i) => i);
  let table = all.map((i) => all.map((j) => (i === j ? 0 : Infinity)));
  for (const { from, to, days } of boundsOf(gaps)) table[from]![to] = Math.min(table[from]![to]!, days);
  for (let round = 0; round <= points; round++) {
    const last = table;
    table = all.map((i) => all.map((j) => Math.min(...all.map((stop) => last[i]![stop]! + last[stop]![j]!))));
    if (all.some((i) => table[i]![i]! < 0)) return null;
  }
  return table;
}

/** The simple cycle with the fewest days, by walking every one; null when there is no cycle. */
export function slowShortestCycle(gaps: readonly Gap[]): { days: number; bounds: Bound[] } | null {
  const bounds = boundsOf(gaps);
  let best: { days: number; bounds: Bound[] } | null = null;
  const walk = (start: number, at: number, path: Bound[], days: number) => {
    for (const bound of bounds) {
      if (bound.from !== at) continue;
      const total = days + bound.days;
      if (bound.to === start && (best === null || total < best.days))
        best = { days: total, bounds: [...path, bound] };
      if (bound.to <= start || path.some((step) => step.from === bound.to)) continue;
      walk(start, bound.to, [...path, bound], total);
    }
  };
  for (const start of new Set(bounds.map((bound) => bound.from))) walk(start, start, [], 0);
  return best;
}
