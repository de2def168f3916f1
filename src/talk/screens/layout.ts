/** Fits lines and texts onto screens: 160 septets, or 70 units where the GSM alphabet does not do (CARRIERS: safe on every network). */
import { measure } from '../../say/parts.ts';

/** Units of one screen. */
const ROOM = { 'GSM-7': 160, 'UCS-2': 70 } as const;
/** Numbers on one screen: 9 turns the page and 0 goes back. */
const MOST_ON_PAGE = 8;

/** Whether these lines are one screen. */
export function fits(lines: readonly string[]): boolean {
  const { encoding, units } = measure(lines.join('\n'));
  return units <= ROOM[encoding];
}

/** Lines that stand on every page. */
export interface Frame {
  readonly head: readonly string[];
  /** The line that turns the page, where there are more. */
  readonly more: string;
  readonly foot: readonly string[];
  /** Room is kept for the line that a wrong key gets. */
  readonly notice: string;
  /** The number of the first label; 1 where none is given. */
  readonly first?: number | undefined;
}

const numbered = (labels: readonly string[], first = 1) =>
  labels.map((label, index) => `${index + first} ${label}`);

/** Labels shared out over pages, in order; each page has at least one. */
export function listPages(labels: readonly string[], frame: Frame): readonly (readonly string[])[] {
  const pages: string[][] = [];
  let page: string[] = [];
  for (const [index, label] of labels.entries()) {
    const next = [...page, label];
    const more = index < labels.length - 1 ? [frame.more] : [];
    const full = next.length > MOST_ON_PAGE || !fits(around(frame, numbered(next, frame.first), more));
    if (page.length > 0 && full) {
      pages.push(page);
      page = [label];
    } else page = next;
  }
  return [...pages, page];
}

/** One page of a list as its lines. */
export function listLines(
  labels: readonly string[],
  frame: Pick<Frame, 'head' | 'more' | 'foot' | 'first'>,
  isLast: boolean,
) {
  return [...frame.head, ...numbered(labels, frame.first), ...(isLast ? [] : [frame.more]), ...frame.foot];
}

function around({ head, foot, notice }: Frame, middle: readonly string[], more: readonly string[]) {
  return [notice, ...head, ...middle, ...more, ...foot];
}

/** A long text cut between words so that each piece is a page; a word longer than a page is cut in itself. */
export function textPages(text: string, frame: Frame): readonly string[] {
  if (fits(around(frame, [text], []))) return [text];
  const isPage = (piece: string) => fits(around(frame, [piece], [frame.more]));
  const pages: string[] = [];
  let page = '';
  for (const word of text.split(' ').flatMap((one) => cutWord(one, isPage))) {
    const next = page === '' ? word : `${page} ${word}`;
    if (page !== '' && !isPage(next)) {
      pages.push(page);
      page = word;
    } else page = next;
  }
  return [...pages, page];
}

function cutWord(word: string, isPage: (piece: string) => boolean): readonly string[] {
  if (isPage(word)) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const sign of word) {
    if (piece !== '' && !isPage(piece + sign)) {
      pieces.push(piece);
      piece = sign;
    } else piece += sign;
  }
  return [...pieces, piece];
}
