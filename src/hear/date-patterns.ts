/** The shapes in which days are said ("3/5", "the 5th of May", "2 days ago", "last Monday"), each as one pattern. */
import { isPlotWord, type Pattern, spanDays, wholeNumber, word } from './date-words.ts';
import { dayOfMonth, hasPlot, mayBeDay } from './day-of-month.ts';
import type { Lexicon } from './lexicon.ts';
import { dayThenMonth, inFigures, monthAt, monthThenDay, oneOfTwo } from './month-dates.ts';
import type { Said } from './said-day.ts';
import { type Node, senseOf } from './sense.ts';

/** A number or "a" before day, week or month; where units stand first, a number that was set before its own. */
function span(
  nodes: readonly Node[],
  at: number,
  lexicon: Lexicon,
): { days: number | 'vague'; length: number } | null {
  const one = word(nodes[at], 'one');
  const count = one ? 1 : nodes[at]?.value;
  if (count === undefined) return null;
  const unit = spanDays(nodes[at + 1]);
  if (unit === null || (lexicon.unitsFirst && !one && !nodes[at + 1]?.glued)) return null;
  return { days: unit === 'vague' || !Number.isInteger(count * unit) ? 'vague' : count * unit, length: 2 };
}

/** Nobody puts more of "of" and "the" in a row. */
const MOST_LINKS = 3;

const offset = (days: number | 'vague'): Said =>
  days === 'vague' ? { kind: 'vague', coming: null } : { kind: 'offset', days, past: false };

/** "2 days ago", "in a week", "after 3 days"; and "for 2 days", which is no date. */
const counted: Pattern = (nodes, at, lexicon) => {
  if (monthAt(nodes, at + 1, lexicon)) return null;
  const before = word(nodes[at], 'ago') ? 'ago' : word(nodes[at], 'ahead') ? 'ahead' : null;
  const found = span(nodes, at + (before ? 1 : 0), lexicon);
  if (!found) return null;
  const end = at + (before ? 1 : 0) + found.length;
  const after = word(nodes[end], 'ago') ? 'ago' : word(nodes[end], 'ahead') && !before ? 'ahead' : null;
  const length = end - at + (after && after !== before ? 1 : 0);
  const way = after ?? before;
  if (way === null) return word(nodes[at], 'one') ? null : { said: null, length };
  if (found.days === 'vague') return { said: { kind: 'vague', coming: way === 'ahead' }, length };
  return { said: offset(way === 'ago' ? -found.days : found.days), length };
};

const turnOf = (node: Node | undefined): 'last' | 'next' | 'this' | null => {
  if (word(node, 'last')) return 'last';
  if (word(node, 'next')) return 'next';
  return word(node, 'this') ? 'this' : null;
};

/** "last week", "the week last", from `at` past "of" and "the": where it ends, or null. */
function lastWeekEnd(nodes: readonly Node[], at: number): number | null {
  let i = at;
  while (i < at + MOST_LINKS && (word(nodes[i], 'of') || senseOf(nodes[i], 'article'))) i++;
  const ordered = word(nodes[i], 'last') && word(nodes[i + 1], 'week');
  const turned = word(nodes[i], 'week') && word(nodes[i + 1], 'last');
  return ordered || turned ? i + 2 : null;
}

/** "Monday", "on Monday", "last Monday", "Monday last week", "Monday of the week last". */
const weekday: Pattern = (nodes, at) => {
  const turn = turnOf(nodes[at]);
  const week = turn && word(nodes[at + 1], 'week') ? 1 : 0;
  const first = at + (turn ? 1 : 0) + week;
  const day = senseOf(nodes[first], 'weekday')?.n;
  if (day === undefined) return null;
  const end = lastWeekEnd(nodes, first + 1);
  if (end !== null) return { said: { kind: 'weekday', weekday: day, turn: 'last-week' }, length: end - at };
  const after = turn ? null : turnOf(nodes[first + 1]);
  const next = after === 'last' || (after === 'next' && spanDays(nodes[first + 2]) === null) ? after : null;
  const way = week && turn === 'last' ? 'last-week' : (turn ?? next);
  return { said: { kind: 'weekday', weekday: day, turn: way }, length: first + 1 + (next ? 1 : 0) - at };
};

const DATED: readonly Pattern[] = [inFigures, dayThenMonth, monthThenDay, dayOfMonth];

/** "Tue 9 March", "Monday, the 5th": the date counts, and its weekday must fit. */
const weekdayAndDate: Pattern = (nodes, at, lexicon) => {
  const day = senseOf(nodes[at], 'weekday')?.n;
  if (day === undefined) return null;
  const start = at + (nodes[at + 1]?.mark === ',' ? 2 : 1);
  for (const pattern of DATED) {
    const grouped = pattern(nodes, start, lexicon);
    if (grouped?.said?.kind !== 'date') continue;
    return { said: { ...grouped.said, weekday: day }, length: start + grouped.length - at };
  }
  const numbered = lexicon.numberedDays && start === at + 1 && mayBeDay(nodes, start);
  if (!numbered || !hasPlot(nodes, at, start + 1, true)) return null;
  const date = { kind: 'date', day: nodes[start]!.value!, month: null, year: null, weekday: day } as const;
  return { said: date, length: 2 };
};

/** "last week", "the other day", "don't know when"; and "yesterday". */
const loose: Pattern = (nodes, at, lexicon) => {
  const node = nodes[at];
  const days = senseOf(node, 'offset')?.n;
  if (days !== undefined)
    return {
      said: { kind: 'offset', days, past: word(node, 'past'), later: word(node, 'later') },
      length: 1,
    };
  const either = senseOf(node, 'either')?.n;
  if (either !== undefined) return { said: { kind: 'either', days: either }, length: 1 };
  if (word(node, 'unknown')) return { said: { kind: 'unknown' }, length: 1 };
  if (word(node, 'vague')) return { said: { kind: 'vague', coming: null }, length: 1 };
  if (spanDays(node) !== null && word(nodes[at + 1], 'ago'))
    return { said: { kind: 'vague', coming: false }, length: 2 };
  const behind = spanDays(node) === null ? null : turnOf(nodes[at + 1]);
  if (behind === 'last' || behind === 'next')
    return { said: { kind: 'vague', coming: behind === 'next' ? true : null }, length: 2 };
  if (lexicon.unitsFirst && spanDays(node) !== null && word(nodes[at + 1], 'ahead'))
    return { said: { kind: 'vague', coming: true }, length: 2 };
  const turn = turnOf(node);
  if (!turn || spanDays(nodes[at + 1]) === null) return null;
  return { said: { kind: 'vague', coming: turn === 'this' ? null : turn === 'next' }, length: 2 };
};

/** Hours ("at 6 am", "10:30", "3 o'clock", "9h30") name no plot and no day. */
const clock: Pattern = (nodes, at, lexicon) => {
  const lead = word(nodes[at], 'at') ? 1 : 0;
  const hour = wholeNumber(nodes[at + lead]);
  if (hour === null || isPlotWord(nodes[at - 1])) return null;
  const minutes = nodes[at + lead + 1];
  const colon = minutes?.mark === ':' && minutes.glued && nodes[at + lead + 2]?.glued === true;
  const end = at + lead + (colon && wholeNumber(nodes[at + lead + 2]) !== null ? 3 : 1);
  const unit = senseOf(nodes[end], 'unit');
  const timed = unit !== undefined && lexicon.units[unit.value]?.kind === 'time';
  if (!timed && end - at - lead === 1) return null;
  const more = timed && nodes[end + 1]?.glued === true && wholeNumber(nodes[end + 1]) !== null ? 1 : 0;
  return { said: null, length: end - at + (timed ? 1 : 0) + more };
};

/** Tried in this order at each node. */
export const DATE_PATTERNS: readonly Pattern[] = [
  inFigures,
  counted,
  clock,
  oneOfTwo,
  dayThenMonth,
  monthThenDay,
  weekdayAndDate,
  weekday,
  dayOfMonth,
  loose,
];
