/** Texts in a row that could not be read: how many of them were answered, so that no loop goes on for ever. */

const HOUR_MS = 3_600_000;
/** Answers to unread texts in an hour, whatever these say; and to one and the same. */
export const MOST_ANSWERS = 5;
const MOST_TO_ONE = 2;
/** So much of a text tells it from another. */
const COMPARED = 160;

/** Kept with the conversation's state; a text that is read, or an hour without any, ends the row. */
export interface UnreadRow {
  readonly lastMs: number;
  /** When texts of the row were answered within the last hour. */
  readonly answeredMs: readonly number[];
  /** The newest text that was answered, as compared, and how often it was. */
  readonly text: string;
  readonly times: number;
  /** All answers were given: silence until the row ends. */
  readonly spent: boolean;
}

const NO_ROW: UnreadRow = { lastMs: 0, answeredMs: [], text: '', times: 0, spent: false };

/** A clock that was put back an hour or more ends a row too. */
const isWithinHour = (ms: number, nowMs: number) => Math.abs(nowMs - ms) < HOUR_MS;

/** The row with one more unread text, and whether it is to be answered: `last` is the last answer of the row. */
export function withUnread(
  before: UnreadRow | undefined,
  plain: string,
  nowMs: number,
): { readonly row: UnreadRow; readonly answer: 'usual' | 'last' | 'none' } {
  const live = before && isWithinHour(before.lastMs, nowMs) ? before : NO_ROW;
  const answeredMs = live.answeredMs.filter((ms) => isWithinHour(ms, nowMs));
  const text = plain.slice(0, COMPARED);
  const times = live.text === text ? live.times : 0;
  const going = { ...live, answeredMs, lastMs: nowMs };
  if (live.spent || times >= MOST_TO_ONE) return { row: going, answer: 'none' };
  const answered = [...answeredMs, nowMs];
  const spent = answered.length >= MOST_ANSWERS;
  const row = { lastMs: nowMs, answeredMs: answered, text, times: times + 1, spent };
  return { row, answer: spent ? 'last' : 'usual' };
}
