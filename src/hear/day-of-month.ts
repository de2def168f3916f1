/** Days said by their number alone: "the 5th", "le 15", "tarehe 5". */
import {
  dayNumber,
  type Grouped,
  isPlotWord,
  leadIn,
  type Pattern,
  spanDays,
  wholeNumber,
  word,
} from './date-words.ts';
import { monthAt } from './month-dates.ts';
import { means, type Node, senseOf } from './sense.ts';

/** A number that surely belongs to a plot, outside the stretch: "plot 3", "all"; without `named` a bare one too. */
export function hasPlot(nodes: readonly Node[], from: number, to: number, named: boolean): boolean {
  return nodes.some((node, i) => {
    if (i >= from && i < to) return false;
    if (means(node, 'plot', 'all')) return true;
    if (isPlotWord(node)) return wholeNumber(nodes[i + 1]) !== null || nodes[i + 1]?.label !== undefined;
    const bare = !named && senseOf(node, 'number') !== undefined && /^\d+$/.test(node.raw);
    const counts =
      senseOf(nodes[i + 1], 'unit') ?? senseOf(nodes[i + 1], 'monthName') ?? spanDays(nodes[i + 1]);
    return bare && counts == null && !word(nodes[i - 1], 'numbered');
  });
}

/** A whole number that may be a day, with nothing behind it that it could count or be listed with. */
export function mayBeDay(nodes: readonly Node[], at: number): boolean {
  const value = wholeNumber(nodes[at]);
  const next = nodes[at + 1];
  if (value === null || value < 1 || !/^\d+$/.test(nodes[at]!.raw)) return false;
  const listed = next?.mark === ',' || next?.mark === '-' || senseOf(next, 'join') !== undefined;
  if (listed && wholeNumber(nodes[at + 2]) !== null) return false;
  return (
    !isPlotWord(next) && !senseOf(next, 'unit') && !senseOf(next, 'monthName') && spanDays(next) === null
  );
}

/** "le 15", where the plot is said elsewhere; alone it could be a plot. */
function numberedDay(nodes: readonly Node[], at: number, end: number): Grouped | null {
  const day = end - 1;
  if (!word(nodes[day - 1], 'numbered') || !mayBeDay(nodes, day) || !hasPlot(nodes, at, end, false))
    return null;
  return { said: { kind: 'date', day: nodes[day]!.value!, month: null, year: null }, length: end - at };
}

/** "the 5th", "on the fifth"; not "the 2nd plot". */
export const dayOfMonth: Pattern = (nodes, at, lexicon) => {
  const lead = leadIn(nodes, at, lexicon);
  const day = dayNumber(nodes, at + lead, lexicon);
  if (!day) return null;
  const worded = (lead > 0 && word(nodes[at + lead - 1], 'dayWords')) || day.worded;
  const end = at + lead + day.length;
  if (!day.ordinal && !worded) return numberedDay(nodes, at, end);
  const inFigures = /\d/.test(nodes[at + lead]!.raw);
  if (monthAt(nodes, end, lexicon) || (word(nodes[end], 'of') && monthAt(nodes, end + 1, lexicon)))
    return null;
  if (day.worded && isPlotWord(nodes[at - 1])) return null;
  if (worded) return { said: { kind: 'date', day: day.value, month: null, year: null }, length: end - at };
  if (isPlotWord(nodes[end]) || isPlotWord(nodes[at - 1])) return null;
  const onDay = nodes.slice(at, at + lead).some((node) => word(node, 'on'));
  // Where "le" leads up to days, "la 3e" is none.
  if (lexicon.numberedDays && !onDay) return null;
  const last = nodes[end] === undefined || nodes[end].mark !== undefined;
  if (!onDay && !(inFigures && last)) return null;
  return { said: { kind: 'date', day: day.value, month: null, year: null }, length: end - at };
};
