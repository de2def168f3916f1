/** Instants as seen on the wall clock of a scheme: its day and its hour. Nothing else here knows time zones. */
import { Temporal } from 'temporal-polyfill';
import type { Day } from '../plan/day.ts';
import { isoDay, parseDay } from '../plan/day.ts';

/** A day of one zone with the instants at which it begins and ends. */
interface DaySpan {
  readonly day: Day;
  readonly fromMs: number;
  readonly toMs: number;
}

/** The last day asked for in each zone: most questions are about the same one. */
const lastSpans = new Map<string, DaySpan>();

/** The local date at an instant. Throws RangeError when the zone is unknown. `localDay(0, 'Asia/Dhaka')` is 0. */
export function localDay(ms: number, timeZone: string): Day {
  const known = lastSpans.get(timeZone);
  if (known !== undefined && ms >= known.fromMs && ms < known.toMs) return known.day;
  const span = daySpan(ms, timeZone);
  lastSpans.set(timeZone, span);
  return span.day;
}

/** Minutes since local midnight by the wall clock, 0 to 1439. Throws RangeError when the zone is unknown. */
export function localMinute(ms: number, timeZone: string): number {
  const at = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(timeZone);
  return at.hour * 60 + at.minute;
}

/** An instant as the zone's clocks show it, to the second: "2027-03-10T12:00:00+03:00". Throws RangeError when it is unknown. */
export function localIso(ms: number, timeZone: string): string {
  const at = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(timeZone);
  return at.toString({ timeZoneName: 'never', smallestUnit: 'second' });
}

/** The instant of a wall-clock time, in milliseconds since the epoch; in a clock-change gap, the next time that exists. */
export function instantOf(day: Day, minute: number, timeZone: string): number {
  const clock = Temporal.PlainTime.from({ hour: Math.floor(minute / 60), minute: minute % 60 });
  return Temporal.PlainDate.from(isoDay(day)).toZonedDateTime({ timeZone, plainTime: clock })
    .epochMilliseconds;
}

function daySpan(ms: number, timeZone: string): DaySpan {
  const at = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(timeZone);
  const from = at.startOfDay();
  const day = parseDay(at.toPlainDate().toString());
  if (day === null) throw new RangeError(`the instant ${ms} lies outside the years 0000 to 9999`);
  return { day, fromMs: from.epochMilliseconds, toMs: from.add({ days: 1 }).startOfDay().epochMilliseconds };
}
