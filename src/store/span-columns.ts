/** Spans of days as two date columns. */
import type { Span } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import { isoDay, parseDay } from '../plan/day.ts';

/** A day as "YYYY-MM-DD"; null stays null. */
export function dateColumn(day: Day | null): string | null {
  return day === null ? null : isoDay(day);
}

/** A date column as a day; null stays null. Throws when the text is no date: nothing but this program writes it. */
export function dayOfColumn(date: string | null): Day | null {
  if (date === null) return null;
  const day = parseDay(date);
  if (day === null) throw new Error('a date column holds something that is no date');
  return day;
}

/** Two date columns as a span. */
export function spanOf(from: string | null, to: string | null): Span {
  return { from: dayOfColumn(from), to: dayOfColumn(to) };
}
