/** How many days a step takes: area times rate, shared among the teams. */
import type { Rulebook } from './rulebook.ts';
import type { Activity, Season } from './season.ts';

/** Guards against 0.1 + 0.2 making one day more. */
const ROUNDING = 1e-9;

/** Days of work per hectare for one team (a person, a pair of animals, a tiller); null when the step takes a day. */
export function workRate(
  book: Rulebook,
  activity: Activity,
  tillage: Season['way']['tillage'],
): number | null {
  const found = book.figures[`work.${activity}.${tillage}`] ?? book.figures[`work.${activity}`];
  return found ? found.value : null;
}

/** Teams that work at once: the season's own, else the usual gang for this work, else one. */
export function teamsFor(book: Rulebook, season: Season, activity: Activity): number {
  return season.teams?.[activity] ?? book.figures[`gang.${activity}`]?.value ?? 1;
}

/** Whole working days, at least one. Ploughing 0.4 ha with one tiller at 1 day/ha takes 1 day. */
export function workDays(book: Rulebook, season: Season, activity: Activity): number {
  const rate = workRate(book, activity, season.way.tillage);
  if (rate === null) return 1;
  return Math.max(1, Math.ceil((season.areaHa * rate) / teamsFor(book, season, activity) - ROUNDING));
}
