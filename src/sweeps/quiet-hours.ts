/** When reminders may go out: from the scheme's hour on, and not at night. */
import type { Day } from '../plan/day.ts';
import { instantOf, localDay, localMinute } from '../store/local-time.ts';
import type { SchemeSettings } from '../store/scheme-seed.ts';

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

/** This instant, or the end of the quiet hours that it lies in. */
export function quietEndMs(nowMs: number, quiet: SchemeSettings['quiet'], timeZone: string): number {
  const minute = localMinute(nowMs, timeZone);
  if (!isQuiet(minute, quiet)) return nowMs;
  const today = localDay(nowMs, timeZone);
  return instantOf(minute < quiet.toMinute ? today : today + 1, quiet.toMinute, timeZone);
}
