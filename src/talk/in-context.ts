/** What a word means on this plot: before ploughing "flooded" is soaking; between ploughing and flooding "levelled" is rough. */

import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Activity, Report } from '../agronomy/season.ts';
import { comesBefore } from './order.ts';

/** The activity meant, given the plot's reports so far. */
export function inContext(book: Rulebook, activity: Activity, reports: readonly Report[]): Activity {
  const reached = (step: Activity) =>
    reports.some((report) => report.activity === step || comesBefore(book, step, report.activity));
  switch (activity) {
    case 'flood':
      return reached('plough') || !book.steps.some((step) => step.activity === 'soak') ? 'flood' : 'soak';
    case 'level':
      return reached('plough') && !reached('puddle') && !reached('flood') ? 'rough-level' : 'level';
    default:
      return activity;
  }
}
