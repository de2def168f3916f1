/** What a word means on this plot: before ploughing "flooded" is soaking; between ploughing and flooding "levelled" is rough. */

import { holds } from '../agronomy/frame.ts';
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Activity, Report, Way } from '../agronomy/season.ts';
import { comesBefore } from './order.ts';

/** The activity meant, given the plot's way of growing and its reports so far. */
export function inContext(
  book: Rulebook,
  way: Way,
  activity: Activity,
  reports: readonly Report[],
): Activity {
  const has = (step: Activity) => book.steps.some((one) => one.activity === step && holds(one.when, way));
  const reached = (step: Activity) =>
    reports.some((report) => report.activity === step || comesBefore(book, step, report.activity));
  switch (activity) {
    case 'flood':
      return reached('plough') || !has('soak') ? 'flood' : 'soak';
    case 'level':
      return has('rough-level') && reached('plough') && !reached('puddle') && !reached('flood')
        ? 'rough-level'
        : 'level';
    default:
      return activity;
  }
}
