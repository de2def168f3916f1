/** A season as rows to read: a heading for each day, then who texted what at which time, and what came back. */
import { dayParts, isoDay } from '../plan/day.ts';

const DAY_MS = 86_400_000;
const NAME_LETTERS = 8;
const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

export interface SeasonPage {
  /** Whose phone it is; the first to use it gives it the name. */
  named(phone: string, name: string): void;
  /** A remark between the texts. */
  note(ms: number, text: string): void;
  /** One text: ">" from a phone, "<" the answer, "*" one that the line sent of itself. */
  row(ms: number, phone: string, mark: '>' | '<' | '*', text: string): void;
}

/** A page whose rows go to `print`. */
export function seasonPage(print: (row: string) => void): SeasonPage {
  const names = new Map<string, string>();
  let printedDay = -1;
  const headed = (ms: number) => {
    const day = Math.floor(ms / DAY_MS);
    if (day !== printedDay) print(`\n${heading(day)}`);
    printedDay = day;
  };
  return {
    note: (ms, text) => {
      headed(ms);
      print(`# ${text}`);
    },
    named: (phone, name) => {
      if (!names.has(phone)) names.set(phone, name);
    },
    row: (ms, phone, mark, text) => {
      headed(ms);
      const time = mark === '<' ? '' : new Date(ms).toISOString().slice(11, 16);
      const name = mark === '<' ? '' : (names.get(phone) ?? phone.slice(-3));
      print(`${time.padEnd(5)} ${name.padEnd(NAME_LETTERS)} ${mark} ${text.replaceAll('\n', ' / ')}`);
    },
  };
}

const heading = (day: number) => `${WEEKDAYS[dayParts(day).weekday - 1]} ${isoDay(day)}`;
