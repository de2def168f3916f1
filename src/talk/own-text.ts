/** Whether a text is one of the line's own come back: an echo, a bounce, a quoted answer. */
import { plainText } from '../hear/automatic.ts';

/** Shorter than this a grower may mean it: a number, a word that a text of ours asks to send. */
const LEAST_LETTERS = 20;
/** So much of a text of ours, or such a text behind a few words ("Undelivered: ..."), nobody types. */
const PIECE_LETTERS = 40;
const MOST_WORDS_BEFORE = 4;

/** Whether the text is long enough to be one. */
export function mayBeOwn(text: string): boolean {
  return plainText(text).length >= LEAST_LETTERS;
}

/** Compares words alone. A long enough piece of a text of ours counts: carriers cut texts, and echo the parts. */
export function isOwnText(text: string, ownTexts: readonly string[]): boolean {
  const plain = plainText(text);
  if (plain.length < LEAST_LETTERS) return false;
  return ownTexts.some((own) => isSame(plain, plainText(own)));
}

function isSame(plain: string, own: string): boolean {
  if (plain === own) return true;
  if (plain.length >= PIECE_LETTERS && own.includes(plain)) return true;
  if (own.length < PIECE_LETTERS || !plain.endsWith(` ${own}`)) return false;
  return plain.slice(0, -own.length).trim().split(' ').length <= MOST_WORDS_BEFORE;
}
