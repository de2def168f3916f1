/** Days as whole numbers: the only time the planner knows. A Day is a date on a calendar, never an instant. */

/** Days since 1970-01-01, a whole number. */
export type Day = number;

const ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
const MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
/** The mean year of the Gregorian calendar: 400 years have 146,097 days (ISO 8601). */
const YEAR_DAYS = 146_097 / 400;

const isLeap = (year: number) => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
const monthDays = (year: number, month: number) =>
  month === 2 && isLeap(year) ? 29 : (MONTHS[month - 1] ?? 0);

/** Days from 1 January of year 1 to 1 January of this year. */
function daysBefore(year: number): number {
  const past = year - 1;
  return 365 * past + Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400);
}

const EPOCH = daysBefore(1970);

/** Reads "YYYY-MM-DD"; null when the text has another form or names no real day. `parseDay('2027-04-31')` is null. */
export function parseDay(text: string): Day | null {
  const [, year, month, dayOfMonth] = ISO_DATE.exec(text) ?? [];
  return year === undefined ? null : dayFromParts(Number(year), Number(month), Number(dayOfMonth));
}

/** Writes a day as "YYYY-MM-DD". `isoDay(0)` is "1970-01-01". */
export function isoDay(day: Day): string {
  const { year, month, dayOfMonth } = dayParts(day);
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(dayOfMonth, 2)}`;
}

const padded = (n: number, width: number) => String(n).padStart(width, '0');

/** The calendar parts of a day: year, month 1-12, day of month, weekday 1 (Monday) to 7 (Sunday). RangeError for no whole day. */
export function dayParts(day: Day): { year: number; month: number; dayOfMonth: number; weekday: number } {
  if (!Number.isSafeInteger(day)) throw new RangeError(`${day} is no day`);
  let year = Math.floor((day + EPOCH) / YEAR_DAYS) + 1;
  if (daysBefore(year) > day + EPOCH) year--;
  else if (daysBefore(year + 1) <= day + EPOCH) year++;
  let left = day + EPOCH - daysBefore(year);
  let month = 1;
  for (; left >= monthDays(year, month); month++) left -= monthDays(year, month);
  return { year, month, dayOfMonth: left + 1, weekday: weekdayOf(day) };
}

/** 1 (Monday) to 7 (Sunday). Day 0, 1970-01-01, was a Thursday. */
export function weekdayOf(day: Day): number {
  return ((((day + 3) % 7) + 7) % 7) + 1;
}

/** The day with these calendar parts, or null when there is no such day (31 April), or its year has not four digits. */
export function dayFromParts(year: number, month: number, dayOfMonth: number): Day | null {
  if (![year, month, dayOfMonth].every(Number.isInteger) || year < 0 || year > 9999) return null;
  if (dayOfMonth < 1 || dayOfMonth > monthDays(year, month)) return null;
  let day = daysBefore(year) - EPOCH + dayOfMonth - 1;
  for (let before = 1; before < month; before++) day += monthDays(year, before);
  return day;
}
