/** Days said with their month: "3/5", "3 May", "May the 3rd". */
import { dayNumber, isPlotWord, leadIn, type Pattern, wholeNumber, word } from './date-words.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';

const LAST_MONTH = 12;
/** Years are written with two figures from here on. */
const FIRST_YEAR = 24;

/** "2/3 ploughed", "1/2 of plot 1": a part of the work, said right before it. */
const isShare = (after: Node | undefined): boolean =>
  word(after, 'of') ||
  ['act', 'verb', 'stage', 'plot'].some((role) => senseOf(after, role as Role) !== undefined);

/** "npk 15-15-15": what a fertiliser holds, where no month or year of ours can be meant. */
function isFormula(nodes: readonly Node[], at: number): boolean {
  const [, month = 0, year] = nodes[at]!.parts ?? [];
  if (year === undefined || !senseOf(nodes[at - 1], 'thing')) return false;
  return nodes[at]!.raw.includes('-') && (month > LAST_MONTH || year < FIRST_YEAR);
}

/** "3/5", "3.5.27", "2027-05-03". */
export const inFigures: Pattern = (nodes, at, lexicon) => {
  const parts = nodes[at]?.parts;
  if (!parts || senseOf(nodes[at + 1], 'unit') || (parts.length === 2 && isPlotWord(nodes[at - 1])))
    return null;
  const [a = 0, b = 0, c] = parts;
  if (isFormula(nodes, at)) return { said: null, length: 1 };
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

/** "March", or "month 3" where a unit stands before its figure; how many nodes it takes. */
export function monthAt(
  nodes: readonly Node[],
  at: number,
  lexicon: Lexicon,
): { n: number; length: number } | null {
  const named = senseOf(nodes[at], 'monthName')?.n;
  if (named !== undefined) return { n: named, length: 1 };
  if (!lexicon.unitsFirst || !word(nodes[at], 'month')) return null;
  const skip = word(nodes[at + 1], 'of') ? 2 : 1;
  const n = wholeNumber(nodes[at + skip]);
  return n !== null && n >= 1 && n <= 12 ? { n, length: skip + 1 } : null;
}

/** "8 or 9 March". */
export const oneOfTwo: Pattern = (nodes, at, lexicon) => {
  if (wholeNumber(nodes[at]) === null || !means(nodes[at + 1], 'join', 'or')) return null;
  const second = dayThenMonth(nodes, at + 2, lexicon);
  return second && { said: { kind: 'puzzle' }, length: second.length + 2 };
};

/** "3 May", "3rd of May 2027"; not "plot 3 may be dry". */
export const dayThenMonth: Pattern = (nodes, at, lexicon) => {
  const day = dayNumber(nodes, at, lexicon);
  if (!day) return null;
  let i = at + day.length;
  while (word(nodes[i], 'of') || nodes[i]?.mark === '-') i++;
  const found = monthAt(nodes, i, lexicon);
  if (!found) return null;
  const month = found.n;
  const end = i + found.length;
  const after = dayNumber(nodes, end, lexicon);
  const isPlots = isPlotWord(nodes[at - 1]);
  // Where units stand before their figures, the figure behind "plot" is the plot's.
  if (isPlots && lexicon.unitsFirst) return null;
  const measured = after !== null && senseOf(nodes[end + after.length], 'unit') !== undefined;
  if (after && !measured && after.value <= 31 && !isPlotWord(nodes[end + 1])) {
    if (isPlots) return null;
    if (!day.ordinal) return { said: { kind: 'puzzle' }, length: end + after.length - at };
  }
  if (isPlots && senseOf(nodes[i], 'mark')) return null;
  const { year, length } = yearAfter(nodes, end);
  return { said: { kind: 'date', day: day.value, month, year }, length: end + length - at };
};

/** "May 3", "May the 3rd, 2027". */
export const monthThenDay: Pattern = (nodes, at, lexicon) => {
  const found = monthAt(nodes, at, lexicon);
  if (!found) return null;
  const month = found.n;
  const skip = found.length + leadIn(nodes, at + found.length, lexicon);
  if (found.length > 1 && skip === found.length) return null;
  const day = dayNumber(nodes, at + skip, lexicon);
  if (!day || day.value > 99) return null;
  const end = at + skip + day.length;
  if (senseOf(nodes[end], 'unit') || senseOf(nodes[end], 'monthName')) return null;
  const { year, length } = yearAfter(nodes, end);
  return { said: { kind: 'date', day: day.value, month, year }, length: end + length - at };
};
