/** What is said when nothing more is to do on a plot. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import { numbersFor } from './numbers.ts';
import { which } from './phrases.ts';
import type { Planned } from './planned.ts';
import type { Sentence } from './turn.ts';
import type { PlotWorld } from './world.ts';

/** The season is over, with the day to which the land rests; or its last steps wait for the local harvest date. */
export function overWords(book: Rulebook, { plan, plot }: Planned, plots: readonly PlotWorld[]): Sentence {
  if (plan.lacksHarvestDate) return { key: 'next.harvest-date', values: { plot: plot.number } };
  const values = { which: which(plots) };
  return plan.fallowUntil === null
    ? { key: 'next.over', values: { ...values, ...numbersFor(book, 'next.over') } }
    : { key: 'next.fallow', values: { ...values, day: { day: plan.fallowUntil } } };
}
