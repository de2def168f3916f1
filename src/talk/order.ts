/** The order of the work as the rulebook's steps give it: which activity comes before which. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Activity } from '../agronomy/season.ts';

/** True when doing `later` tells that `earlier` has been done, through any number of steps. */
export function comesBefore(book: Rulebook, earlier: Activity, later: Activity): boolean {
  const before = book.steps.find(({ activity }) => activity === later)?.implies ?? [];
  return before.includes(earlier) || before.some((activity) => comesBefore(book, earlier, activity));
}

/** True when the activity comes more than once in a crop: weeding, top-dressing. */
export function hasRounds(book: Rulebook, activity: Activity): boolean {
  return book.steps.some((step) => step.activity === activity && (step.round ?? 1) > 1);
}
