/** How far apart the plots of a block are planted: rats and birds gather on those that ripen alone (IRRI; Singleton et al. 2005). */
import type { Day } from '../../plan/day.ts';
import { bestFloodDate } from './flood-date.ts';

export interface PlantedPlot {
  readonly plotId: string;
  readonly areaHa: number;
  /** The day on which it was, or is planned to be, planted or sown; null where that is not known. */
  readonly plantOn: Day | null;
}

export interface InStep {
  /** The days between which most plots are planted; null where no day is known. */
  readonly together: { readonly from: Day; readonly to: Day } | null;
  /** From the first plot to the last. */
  readonly spreadDays: number;
  /** Plots outside, by how many days they come before (below 0) or after; the farthest first. */
  readonly outside: readonly { readonly plotId: string; readonly byDays: number }[];
  /** Plots whose day is not known. */
  readonly unknown: readonly string[];
}

/** The stretch of at most so many days from first to last that holds the most plots, then the most land, then the earliest. */
export function inStep(plots: readonly PlantedPlot[], withinDays: number): InStep {
  const known = plots.flatMap(({ plantOn, ...plot }) => (plantOn === null ? [] : [{ ...plot, plantOn }]));
  const unknown = plots.filter(({ plantOn }) => plantOn === null).map(({ plotId }) => plotId);
  if (known.length === 0) return { together: null, spreadDays: 0, outside: [], unknown };
  const days = known.map(({ plantOn }) => plantOn);
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const starts = known.map(({ plotId, areaHa, plantOn }) => ({
    plotId,
    areaHa,
    days: { from: plantOn - withinDays, to: plantOn },
  }));
  const from = bestFloodDate(starts, { from: first, to: last })?.on ?? first;
  const outside = known.flatMap(({ plotId, plantOn }) => {
    const byDays = Math.min(0, plantOn - from) + Math.max(0, plantOn - (from + withinDays));
    return byDays === 0 ? [] : [{ plotId, byDays }];
  });
  return {
    together: { from, to: from + withinDays },
    spreadDays: last - first,
    outside: outside.toSorted((a, b) => Math.abs(b.byDays) - Math.abs(a.byDays)),
    unknown,
  };
}
