/** Days as whole numbers: the only time the planner knows. A Day is a date on a calendar, never an instant. */
import { Temporal } from 'temporal-polyfill';

/** Days since 1970-01-01, a whole number. */
export type Day = number;

const EPOCH = Temporal.PlainDate.from('1970-01-01');
const ISO_DATE = /^\d{4}-\d{2}-\d{2}$/;

/** Reads "YYYY-MM-DD"; null when the text has another form or names no real day. `parseDay('2027-04-31')` is null. */
export function parseDay(text: string): Day | null {
  if (!ISO_DATE.test(text)) return null;
  try {
    return EPOCH.until(Temporal.PlainDate.from(text, { overflow: 'reject' }), { largestUnit: 'day' }).days;
  } catch {
    return null;
  }
}

/** Writes a day as "YYYY-MM-DD". `isoDay(0)` is "1970-01-01". */
export function isoDay(day: Day): string {
  return EPOCH.add({ days: day }).toString();
}

/** The calendar parts of a day: year, month 1-12, day of month, weekday 1 (Monday) to 7 (Sunday). */
export function dayParts(day: Day): { year: number; month: number; dayOfMonth: number; weekday: number } {
  const date = EPOCH.add({ days: day });
  return { year: date.year, month: date.month, dayOfMonth: date.day, weekday: date.dayOfWeek };
}

/** The day with these calendar parts, or null when there is no such day (31 April). */
export function dayFromParts(year: number, month: number, dayOfMonth: number): Day | null {
  const pad = (n: number, width: number) => String(n).padStart(width, '0');
  return parseDay(`${pad(year, 4)}-${pad(month, 2)}-${pad(dayOfMonth, 2)}`);
}
