/** The shapes in which days are said ("3/5", "the 5th of May", "2 days ago", "last Monday"), each as one pattern. */
import type { Lexicon } from './lexicon.ts';
import type { Said } from './said-day.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';

export interface Grouped {
  readonly said: Said | null;
  readonly length: number;
}

/** What begins at a node: a day or a stretch of time that is none; null when neither does. */
export type Pattern = (nodes: readonly Node[], at: number, lexicon: Lexicon) => Grouped | null;

const word = (node: Node | undefined, value: string) => means(node, 'date', value);
const isPlotWord = (node: Node | undefined) =>
  senseOf(node, 'plot') !== undefined && !means(node, 'plot', 'all');

function wholeNumber(node: Node | undefined): number | null {
  const value = node?.value;
  return value !== undefined && Number.isInteger(value) && value >= 0 ? value : null;
}

/** Nobody puts more of such words in a row. */
const MOST_LEADS = 4;

/** How many nodes from `at` are "on", "the" or "of": words that only lead up to a date. */
function leadIn(nodes: readonly Node[], at: number): number {
  const leads = (node: Node | undefined) => word(node, 'on') || senseOf(node, 'article');
  let length = 0;
  while (length < MOST_LEADS && leads(nodes[at + length])) length++;
  return length;
}

const dayNumber = (
  nodes: readonly Node[],
  at: number,
): { value: number; length: number; ordinal: boolean } | null => {
  const value = wholeNumber(nodes[at]);
  if (value === null) return null;
  const ended = nodes[at + 1]?.glued === true && senseOf(nodes[at + 1], 'ending') !== undefined;
  return { value, length: ended ? 2 : 1, ordinal: ended || senseOf(nodes[at], 'ordinal') !== undefined };
};

/** "2/3 ploughed", "1/2 of plot 1": a part of the work, said right before it. */
const isShare = (after: Node | undefined): boolean =>
  word(after, 'of') ||
  ['act', 'verb', 'stage', 'plot'].some((role) => senseOf(after, role as Role) !== undefined);

/** "3/5", "3.5.27", "2027-05-03". */
const inFigures: Pattern = (nodes, at, lexicon) => {
  const parts = nodes[at]?.parts;
  if (!parts || senseOf(nodes[at + 1], 'unit') || (parts.length === 2 && isPlotWord(nodes[at - 1])))
    return null;
  const [a = 0, b = 0, c] = parts;
  if (a > 999) return { said: { kind: 'date', day: c ?? 0, month: b, year: a }, length: 1 };
  const [day, month] = lexicon.monthFirst ? [b, a] : [a, b];
  const fraction =
    c === undefined && a < b && b <= 4 && nodes[at]?.raw.includes('/') === true && !word(nodes[at - 1], 'on');
  if (fraction && isShare(nodes[at + 1])) return { said: { kind: 'puzzle' }, length: 1 };
  return { said: { kind: 'date', day, month, year: c ?? null, ...(fraction && { fraction }) }, length: 1 };
};

function yearAfter(nodes: readonly Node[], at: number): { year: number | null; length: number } {
  const skip = nodes[at]?.mark === ',' ? 1 : 0;
  const value = wholeNumber(nodes[at + skip]);
  return value !== null && value >= 2000 && value < 2100
    ? { year: value, length: skip + 1 }
    : { year: null, length: 0 };
}

/** "3 May", "3rd of May 2027"; not "plot 3 may be dry". */
const dayThenMonth: Pattern = (nodes, at) => {
  const day = dayNumber(nodes, at);
  if (!day) return null;
  let i = at + day.length;
  while (word(nodes[i], 'of') || nodes[i]?.mark === '-') i++;
  const month = senseOf(nodes[i], 'monthName')?.n;
  if (month === undefined) return null;
  const after = dayNumber(nodes, i + 1);
  const isPlots = isPlotWord(nodes[at - 1]);
  if (after && after.value <= 31 && !isPlotWord(nodes[i + 2])) {
    if (isPlots) return null;
    if (!day.ordinal) return { said: { kind: 'puzzle' }, length: i + 1 + after.length - at };
  }
  if (isPlots && senseOf(nodes[i], 'mark')) return null;
  const { year, length } = yearAfter(nodes, i + 1);
  return { said: { kind: 'date', day: day.value, month, year }, length: i + 1 + length - at };
};

/** "May 3", "May the 3rd, 2027". */
const monthThenDay: Pattern = (nodes, at) => {
  const month = senseOf(nodes[at], 'monthName')?.n;
  if (month === undefined) return null;
  const skip = 1 + leadIn(nodes, at + 1);
  const day = dayNumber(nodes, at + skip);
  if (!day || day.value > 99) return null;
  const end = at + skip + day.length;
  if (senseOf(nodes[end], 'unit') || senseOf(nodes[end], 'monthName')) return null;
  const { year, length } = yearAfter(nodes, end);
  return { said: { kind: 'date', day: day.value, month, year }, length: end + length - at };
};

/** "the 5th", "on the fifth"; not "the 2nd plot". */
const dayOfMonth: Pattern = (nodes, at) => {
  const lead = leadIn(nodes, at);
  const day = dayNumber(nodes, at + lead);
  if (!day?.ordinal) return null;
  const end = at + lead + day.length;
  const inFigures = /\d/.test(nodes[at + lead]!.raw);
  if (isPlotWord(nodes[end]) || isPlotWord(nodes[at - 1])) return null;
  if (senseOf(nodes[end], 'monthName') || (word(nodes[end], 'of') && senseOf(nodes[end + 1], 'monthName')))
    return null;
  const onDay = nodes.slice(at, at + lead).some((node) => word(node, 'on'));
  const last = nodes[end] === undefined || nodes[end].mark !== undefined;
  if (!onDay && !(inFigures && last)) return null;
  return { said: { kind: 'date', day: day.value, month: null, year: null }, length: end - at };
};

const spanDays = (node: Node | undefined): number | 'vague' | null => {
  if (word(node, 'day')) return 1;
  if (word(node, 'week')) return 7;
  return word(node, 'month') ? 'vague' : null;
};

/** A number or "a" before day, week or month. */
function span(nodes: readonly Node[], at: number): { days: number | 'vague'; length: number } | null {
  const one = word(nodes[at], 'one');
  const count = one ? 1 : nodes[at]?.value;
  if (count === undefined) return null;
  const unit = spanDays(nodes[at + 1]);
  if (unit === null) return null;
  return { days: unit === 'vague' || !Number.isInteger(count * unit) ? 'vague' : count * unit, length: 2 };
}

const offset = (days: number | 'vague'): Said =>
  days === 'vague' ? { kind: 'vague', coming: null } : { kind: 'offset', days, past: false };

/** "2 days ago", "in a week", "after 3 days"; and "for 2 days", which is no date. */
const counted: Pattern = (nodes, at) => {
  const before = word(nodes[at], 'ago') ? 'ago' : word(nodes[at], 'ahead') ? 'ahead' : null;
  const found = span(nodes, at + (before ? 1 : 0));
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

/** "Monday", "on Monday", "last Monday", "Monday last week". */
const weekday: Pattern = (nodes, at) => {
  const turn = turnOf(nodes[at]);
  const week = turn && word(nodes[at + 1], 'week') ? 1 : 0;
  const first = at + (turn ? 1 : 0) + week;
  const day = senseOf(nodes[first], 'weekday')?.n;
  if (day === undefined) return null;
  if (word(nodes[first + 1], 'last') && word(nodes[first + 2], 'week')) {
    return { said: { kind: 'weekday', weekday: day, turn: 'last-week' }, length: first + 3 - at };
  }
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
  return null;
};

/** "last week", "the other day", "don't know when"; and "yesterday". */
const loose: Pattern = (nodes, at) => {
  const node = nodes[at];
  const days = senseOf(node, 'offset')?.n;
  if (days !== undefined)
    return {
      said: { kind: 'offset', days, past: word(node, 'past'), later: word(node, 'later') },
      length: 1,
    };
  if (word(node, 'unknown')) return { said: { kind: 'unknown' }, length: 1 };
  if (word(node, 'vague')) return { said: { kind: 'vague', coming: null }, length: 1 };
  if (spanDays(node) !== null && word(nodes[at + 1], 'ago'))
    return { said: { kind: 'vague', coming: false }, length: 2 };
  const turn = turnOf(node);
  if (!turn || spanDays(nodes[at + 1]) === null) return null;
  return { said: { kind: 'vague', coming: turn === 'this' ? null : turn === 'next' }, length: 2 };
};

/** Hours ("at 6 am", "10:30", "3 o'clock") name no plot and no day. */
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
  return { said: null, length: end - at + (timed ? 1 : 0) };
};

/** Tried in this order at each node. */
export const DATE_PATTERNS: readonly Pattern[] = [
  inFigures,
  counted,
  clock,
  dayThenMonth,
  monthThenDay,
  weekdayAndDate,
  weekday,
  dayOfMonth,
  loose,
];
