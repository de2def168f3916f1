/**
 * Texts that a handset or a network sends by itself: "Auto reply: I am driving", "You have 2 missed calls". Told by marks of the
 * word lists, and only where a text says nothing about work. Knows no language.
 */
import { clean, foldWord } from './fold.ts';
import type { Heard, Reading } from './reading.ts';
import type { WordList } from './word-list.ts';

/** `notice`: words that no grower writes; `opening`: "auto reply:" and whatever follows; `away`: nothing but "I'll call you later". */
export type AutomaticMark = 'notice' | 'opening' | 'away';

/** Finds the mark of an automatic text; null when it bears none. */
export type FindMark = (text: string) => AutomaticMark | null;

/** What "*" stands for in a phrase. */
const SOME_WORDS = '(?: [^ ]+){0,6}';

/** A text for comparing as a whole: letters and digits of any script in words, folded. `plainText("[I'm] BUSY!")` is "im busy". */
export function plainText(text: string): string {
  const words = clean(text)
    .replaceAll("'", '')
    .match(/[\p{L}\p{M}\p{N}]+/gu);
  return (words ?? []).map(foldWord).join(' ');
}

/** "you have * missed call" as a pattern on the plain text. */
const patternOf = (phrase: string): string => phrase.split('*').map(plainText).join(`${SOME_WORDS} `);

function anyOf(phrases: readonly string[], before: string): RegExp | null {
  return phrases.length === 0 ? null : new RegExp(`${before}(?:${phrases.map(patternOf).join('|')})(?: |$)`);
}

/** How many words from `at` on the longest of the phrases has; 0 for none. */
function longestAt(words: readonly string[], at: number, phrases: ReadonlySet<string>, most: number): number {
  for (let count = Math.min(most, words.length - at); count > 0; count--)
    if (phrases.has(words.slice(at, at + count).join(' '))) return count;
  return 0;
}

/** Whether the text is made of these phrases and nothing else, one of them at least from `away`. */
function isOnly(
  plain: string,
  away: ReadonlySet<string>,
  beside: ReadonlySet<string>,
  most: number,
): boolean {
  const words = plain.split(' ');
  let isAway = false;
  for (let at = 0; at < words.length; ) {
    const said = longestAt(words, at, away, most);
    const count = Math.max(said, longestAt(words, at, beside, most));
    if (count === 0) return false;
    isAway ||= said === count;
    at += count;
  }
  return isAway;
}

/** Makes one language's marks ready; done once for each. A text with a question mark may be about such a text: it is none. */
export function automaticMarks({ notices, opens, away, beside }: WordList['automatic']): FindMark {
  const [notice, opening] = [anyOf(notices, '(?:^| )'), anyOf(opens, '^')];
  const [gone, spare] = [new Set(away.map(plainText)), new Set(beside.map(plainText))];
  const most = Math.max(0, ...[...gone, ...spare].map((phrase) => phrase.split(' ').length));
  return (text) => {
    const plain = plainText(text);
    if (isOnly(plain, gone, spare, most)) return 'away';
    if (clean(text).includes('?')) return null;
    if (notice?.test(plain)) return 'notice';
    return opening?.test(plain) ? 'opening' : null;
  };
}

/** Readings without any work: what hearing makes of "I cannot talk now", and of the figures in a notice. */
function isIdle(reading: Reading): boolean {
  if (reading.kind === 'not-done') return reading.activity === null;
  return reading.kind === 'ask' && reading.activity === undefined;
}

/** A guess, or a day that cannot be, is about what a person said. */
const MEANT = new Set(['two-meanings', 'which-plot', 'which-day', 'impossible-date', 'future-date']);

/**
 * Whether a text that bears the mark was sent by no person: nothing about work, a trouble or the account was read in it, neither
 * in the mark's own language nor in that of the phone. What hearing makes of a notice's words may be a trouble of no plot; and
 * where nothing is said but "I'll call you later", whatever another language reads in it is none.
 */
export function isAutomatic(mark: AutomaticMark, inMarks: Heard, inPhones: Heard): boolean {
  switch (mark) {
    case 'away':
      return inMarks.readings.every(isIdle);
    case 'opening':
      return (
        [...inMarks.readings, ...inPhones.readings].every(isIdle) && !MEANT.has(inMarks.unclear?.why ?? '')
      );
    case 'notice':
      return (
        inMarks.readings.every((one) => isIdle(one) || (one.kind === 'trouble' && one.plots.length === 0)) &&
        inPhones.readings.every((one) => isIdle(one) || one.kind === 'trouble')
      );
  }
}
