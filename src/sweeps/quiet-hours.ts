/** When texts that nobody asked for may go out: not at night, reminders from the scheme's hour on; and until when. */
import type { Day } from '../plan/day.ts';
import type { Visit } from '../scheme/group/appointment.ts';
import { instantOf, localDay, localMinute } from '../store/local-time.ts';
import type { SchemeSettings } from '../store/scheme-seed.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** Whether a local minute of the day lies in the quiet hours; `from` equal to `to` means none. */
export function isQuiet(minute: number, { fromMinute, toMinute }: SchemeSettings['quiet']): boolean {
  if (fromMinute <= toMinute) return minute >= fromMinute && minute < toMinute;
  return minute >= fromMinute || minute < toMinute;
}

/** Whether reminders may go out at this local minute of the day. */
export function mayRemind(minute: number, settings: SchemeSettings): boolean {
  return minute >= settings.remindFromMinute && !isQuiet(minute, settings.quiet);
}

/** The instant at which today's reminders are worth nothing any more: when quiet hours begin, or the day ends. */
export function remindersEndMs(
  today: Day,
  minute: number,
  settings: SchemeSettings,
  timeZone: string,
): number {
  const { fromMinute, toMinute } = settings.quiet;
  const quietLater = fromMinute !== toMinute && fromMinute > minute;
  return quietLater ? instantOf(today, fromMinute, timeZone) : instantOf(today + 1, 0, timeZone);
}

/** The first instant from now on that is not quiet: now, or the end of the quiet hours that now lies in. */
export function afterQuietMs(nowMs: number, quiet: SchemeSettings['quiet'], timeZone: string): number {
  const minute = localMinute(nowMs, timeZone);
  if (!isQuiet(minute, quiet)) return nowMs;
  const { fromMinute, toMinute } = quiet;
  const endsTomorrow = fromMinute > toMinute && minute >= fromMinute;
  const endMs = instantOf(localDay(nowMs, timeZone) + (endsTomorrow ? 1 : 0), toMinute, timeZone);
  // Where the clock is put back, an hour comes twice, and the first end lies behind the second.
  return endMs > nowMs ? endMs : nowMs + (toMinute - minute) * MINUTE_MS;
}

/** The instant from which news is worth nothing: a day after it may go out. */
export function newsEndMs(notBeforeMs: number): number {
  return notBeforeMs + DAY_MS;
}

/** The end of the local day on which the latest of the visits starts; a day after `notBeforeMs` when that is later. */
export function visitsEndMs(
  visits: readonly (Visit | null)[],
  notBeforeMs: number,
  timeZone: string,
): number {
  const days = visits.flatMap((visit) => (visit === null ? [] : [visit.start.day]));
  const newsMs = newsEndMs(notBeforeMs);
  return days.length === 0 ? newsMs : Math.max(newsMs, instantOf(Math.max(...days) + 1, 0, timeZone));
}
