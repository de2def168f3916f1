/** Calendars in the form that calendar programs take in (RFC 5545). Knows nothing about rice. */
import { type Day, isoDay } from '../../plan/day.ts';

/** Whole days, the last one included, or a time between two instants. */
export type EventTime =
  | { readonly from: Day; readonly to: Day }
  | { readonly fromMs: number; readonly toMs: number };

export interface CalendarEvent {
  /** Always the same for the same thing: a calendar that has it already changes it instead of doubling it. */
  readonly uid: string;
  readonly summary: string;
  readonly time: EventTime;
}

const PRODUCT = '-//Bundline//Block calendar//EN';
const MOST_OCTETS = 75;

/** The calendar as text; `nowMs` is the instant at which it was made. */
export function calendarText(name: string, events: readonly CalendarEvent[], nowMs: number): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    `PRODID:${PRODUCT}`,
    `X-WR-CALNAME:${escaped(name)}`,
    ...events.flatMap((event) => eventLines(event, nowMs)),
    'END:VCALENDAR',
  ];
  return lines
    .flatMap(folded)
    .map((line) => `${line}\r\n`)
    .join('');
}

function eventLines({ uid, summary, time }: CalendarEvent, nowMs: number): readonly string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(uid)}`,
    `DTSTAMP:${instant(nowMs)}`,
    ...timeLines(time),
    `SUMMARY:${escaped(summary)}`,
    'END:VEVENT',
  ];
}

/** An end is the first day, or instant, that no longer belongs to the event; whole days keep nobody busy. */
function timeLines(time: EventTime): readonly string[] {
  if ('from' in time)
    return [
      `DTSTART;VALUE=DATE:${date(time.from)}`,
      `DTEND;VALUE=DATE:${date(time.to + 1)}`,
      'TRANSP:TRANSPARENT',
    ];
  const end = time.toMs > time.fromMs ? [`DTEND:${instant(time.toMs)}`] : [];
  return [`DTSTART:${instant(time.fromMs)}`, ...end];
}

const date = (day: Day) => isoDay(day).replaceAll('-', '');
const instant = (ms: number) => `${new Date(ms).toISOString().replace(/[-:]|\.\d+/g, '')}`;

/** Signs that part fields are written with a backslash; signs that are no text at all are left out. */
const escaped = (text: string) =>
  text
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{Cc}\n\t]|\p{Cs}/gu, '')
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');

/** A line in pieces of at most 75 octets of UTF-8, no sign cut; all but the first begin with a space. */
function folded(line: string): readonly string[] {
  const pieces: string[] = [];
  let [piece, octets] = ['', 0];
  for (const sign of line) {
    const more = Buffer.byteLength(sign);
    if (octets + more > MOST_OCTETS) {
      pieces.push(piece);
      [piece, octets] = [' ', 1];
    }
    piece += sign;
    octets += more;
  }
  return [...pieces, piece];
}
