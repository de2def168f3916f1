/** Work on a calendar with days on which nobody works: market days, days of rest. It knows nothing about rice. */
import { type Day, dayFromParts, dayParts, weekdayOf } from '../plan/day.ts';
import type { RestDays } from './season.ts';

/** No scheme rests longer than this at a stretch; a calendar that does is taken as it is after so many days. */
const LONGEST_REST_DAYS = 60;

/** Whether people work on this day; without rest days they always do. */
export function isWorkday(rest: RestDays | undefined, day: Day): boolean {
  if (!rest) return true;
  return !rest.days.includes(day) && !rest.weekdays.includes(weekdayOf(day));
}

/** The first working day on or after a day (`step` 1), or on or before it (`step` -1). */
export function nearestWorkday(rest: RestDays | undefined, day: Day, step: 1 | -1): Day {
  for (let away = 0; away <= LONGEST_REST_DAYS; away++) {
    if (isWorkday(rest, day + step * away)) return day + step * away;
  }
  return day;
}

/** The last day of work that starts on a day and takes so many working days; `step` -1 counts backward to its first. */
export function workEnd(rest: RestDays | undefined, start: Day, workDays: number, step: 1 | -1 = 1): Day {
  if (!rest) return start + step * (workDays - 1);
  let day = start;
  for (let left = workDays - 1; left > 0; left--) day = nearestWorkday(rest, day + step, step);
  return day;
}

/** Month of a day, 0 for January. */
export const monthOf = (day: Day): number => dayParts(day).month - 1;

/** The month of a day (0 for January), its length, and its last day. */
export function monthAt(day: Day): { readonly month: number; readonly days: number; readonly end: Day } {
  const { year, month, dayOfMonth } = dayParts(day);
  const next = month === 12 ? dayFromParts(year + 1, 1, 1) : dayFromParts(year, month + 1, 1);
  const end = (next ?? day + 1) - 1;
  return { month: month - 1, days: dayOfMonth + (end - day), end };
}
