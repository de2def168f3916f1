/** How many days a step takes: area times rate, shared among the teams. */
import { figure, type Rulebook } from './rulebook.ts';
import type { Activity, Season, Way } from './season.ts';

/** Guards against 0.1 + 0.2 making one day more. */
const ROUNDING = 1e-9;

/** What the days of a step hang on: a season, or as much of one. */
export interface WorkTerms {
  readonly areaHa: number;
  readonly way: Pick<Way, 'tillage'>;
  readonly teams?: Season['teams'];
}

/** Days of work per hectare for one team (a person, a pair of animals, a tiller); null when the step takes a day. */
export function workRate(book: Rulebook, activity: Activity, tillage: Way['tillage']): number | null {
  const key = workFigure(book, activity, tillage);
  return key === null ? null : figure(book, key);
}

/** The key of the figure with that rate; null when the rulebook has none. */
export function workFigure(book: Rulebook, activity: Activity, tillage: Way['tillage']): string | null {
  const keys = [`work.${activity}.${tillage}`, `work.${activity}`];
  return keys.find((key) => book.figures[key] !== undefined) ?? null;
}

/** Teams that work at once: the season's own, else the usual gang for this work, else one. */
export function teamsFor(book: Rulebook, season: Pick<WorkTerms, 'teams'>, activity: Activity): number {
  return season.teams?.[activity] ?? book.figures[`gang.${activity}`]?.value ?? 1;
}

/** Whole working days, at least one. Ploughing 0.4 ha with one tiller at 1 day/ha takes 1 day. */
export function workDays(book: Rulebook, season: WorkTerms, activity: Activity): number {
  const rate = workRate(book, activity, season.way.tillage);
  if (rate === null) return 1;
  return Math.max(1, Math.ceil((season.areaHa * rate) / teamsFor(book, season, activity) - ROUNDING));
}
