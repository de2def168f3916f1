/** A day as said, before it is known whether the past or the future is meant; and its finding on the calendar. */
import { type Day, dayFromParts, dayParts } from '../plan/day.ts';
import type { Assumed } from './reading.ts';

export interface SaidDate {
  readonly kind: 'date';
  readonly day: number;
  readonly month: number | null;
  readonly year: number | null;
  /** The weekday said with it ("Tue 9 March"); one that does not fit makes the line ask. */
  readonly weekday?: number;
  /** Written like a simple fraction or a decimal ("1/2", "5.3"): half a plot is as likely as a day of long ago. */
  readonly fraction?: boolean;
}

export type Said =
  | { readonly kind: 'offset'; readonly days: number; readonly past: boolean; readonly later?: boolean }
  /** So many days before or after today, as the verb tells. */
  | { readonly kind: 'either'; readonly days: number }
  | {
      readonly kind: 'weekday';
      readonly weekday: number;
      readonly turn: 'last' | 'next' | 'this' | 'last-week' | null;
    }
  | SaidDate
  /** "last week", "next week", "one day": `coming` when the words say which way. */
  | { readonly kind: 'vague'; readonly coming: boolean | null }
  | { readonly kind: 'unknown' | 'puzzle' };

export type Found =
  | { readonly on: Day | null; readonly assumed: readonly Assumed[] }
  | { readonly problem: 'impossible-date' | 'future-date' | 'which-day' };

/** A date without a year may lie this far from today on the side that is meant; further, the line asks. */
const FAR_DAYS = 200;
/** "The 15th" of the month before, or a day written like a fraction, is taken for a day this near; further, the line asks. */
const NEAR_DAYS = 16;
const CENTURY = 2000;

const onWeekday = (said: Said & { kind: 'weekday' }, past: boolean, today: Day): Day => {
  const now = dayParts(today).weekday;
  const back = (now - said.weekday + 7) % 7;
  if (said.turn === 'last-week') return today - now + 1 - 7 + said.weekday - 1;
  if (said.turn === 'last') return today - (back === 0 ? 7 : back);
  if (said.turn === 'next') return today + (back === 0 ? 7 : 7 - back);
  if (past) return today - back;
  return today + ((7 - back) % 7);
};

/** "the 5th": the last or next month's day of that number. */
function onDayOfMonth(dayOfMonth: number, past: boolean, today: Day): Found {
  if (dayOfMonth < 1 || dayOfMonth > 31) return { problem: 'impossible-date' };
  const { year, month } = dayParts(today);
  const here = dayFromParts(year, month, dayOfMonth);
  if (here !== null && (past ? here <= today : here >= today)) return { on: here, assumed: ['month'] };
  const step = month - 1 + (past ? -1 : 1);
  const other = dayFromParts(year + Math.floor(step / 12), ((step + 12) % 12) + 1, dayOfMonth);
  if (other === null) return { problem: 'impossible-date' };
  if (past && today - other > NEAR_DAYS) return { problem: 'which-day' };
  return { on: other, assumed: ['month'] };
}

function withoutYear(day: number, month: number, past: boolean, today: Day): Found {
  const { year } = dayParts(today);
  const here = dayFromParts(year, month, day);
  const other = dayFromParts(past ? year - 1 : year + 1, month, day);
  if (here === null && (other === null || Math.abs(other - today) > FAR_DAYS))
    return { problem: 'impossible-date' };
  if (here !== null && (past ? here <= today : here >= today)) return { on: here, assumed: ['year'] };
  if (other !== null && Math.abs(other - today) <= FAR_DAYS) return { on: other, assumed: ['year'] };
  return { problem: past ? 'future-date' : 'which-day' };
}

function onDate(said: SaidDate, past: boolean, today: Day): Found {
  if (said.month === null) return onDayOfMonth(said.day, past, today);
  if (said.year === null) return withoutYear(said.day, said.month, past, today);
  const year = said.year < 100 ? CENTURY + said.year : said.year;
  const on = dayFromParts(year, said.month, said.day);
  return on === null ? { problem: 'impossible-date' } : { on, assumed: [] };
}

function find(said: Said, past: boolean, today: Day): Found {
  switch (said.kind) {
    case 'offset':
      return { on: today + said.days, assumed: [] };
    case 'either':
      return { on: past ? today - said.days : today + said.days, assumed: [] };
    case 'weekday':
      return { on: onWeekday(said, past, today), assumed: [] };
    case 'date':
      return onDate(said, past, today);
    case 'unknown':
      return { on: null, assumed: [] };
    case 'vague':
      if (!past) return { on: null, assumed: [] };
      return { problem: said.coming ? 'future-date' : 'which-day' };
    case 'puzzle':
      return { problem: 'which-day' };
  }
}

/**
 * The day meant by a report (`past`) or a plan. A report's day is never after today, a plan's never before it.
 * With today 2027-03-10, "31 April" is `{ problem: 'impossible-date' }` and "tomorrow" on a report `future-date`.
 */
export function findDay(said: Said, past: boolean, today: Day): Found {
  const found = find(said, past, today);
  if ('problem' in found || found.on === null) return found;
  if (said.kind === 'date' && said.weekday && dayParts(found.on).weekday !== said.weekday)
    return { problem: 'which-day' };
  if (past && today - found.on > FAR_DAYS) return { problem: 'which-day' };
  if (past && said.kind === 'date' && said.fraction && today - found.on > NEAR_DAYS)
    return { problem: 'which-day' };
  if (past && found.on > today) return { problem: 'future-date' };
  if (!past && found.on < today) return { problem: 'which-day' };
  return found;
}

/** "Sunday 7": its weekday tells which side of today it lies on. */
const fitsOnly = (said: SaidDate, past: boolean, today: Day): boolean =>
  said.weekday !== undefined &&
  !('problem' in findDay(said, past, today)) &&
  'problem' in findDay(said, !past, today);

/** True when the words themselves say that the day is over or has come ("yesterday", "last Monday", "3 March"). */
export function saysPast(said: Said, today: Day): boolean {
  if (said.kind === 'offset') return said.days < 0 || said.past;
  if (said.kind === 'weekday') return said.turn === 'last' || said.turn === 'last-week';
  if (said.kind === 'vague') return said.coming === false;
  if (said.kind !== 'date') return false;
  if (said.month === null) return fitsOnly(said, true, today);
  return !('problem' in findDay(said, true, today));
}

/** True when the words themselves say that the day is to come ("tomorrow", "next Monday", "20 May" in March). */
export function saysFuture(said: Said, today: Day): boolean {
  if (said.kind === 'offset') return said.days > 0;
  if (said.kind === 'weekday') return said.turn === 'next';
  if (said.kind === 'vague') return said.coming === true;
  if (said.kind !== 'date') return false;
  if (said.month === null) return fitsOnly(said, false, today);
  const past = findDay(said, true, today);
  return 'problem' in past && past.problem === 'future-date';
}
