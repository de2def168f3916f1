/** Takes words apart that were typed without a space between. */
import type { Lexicon } from './lexicon.ts';
import { slipsBetween } from './nearness.ts';

const sensesOf = (word: string, lexicon: Lexicon) => lexicon.phrases.next.get(word)?.senses ?? [];

const isOurs = (word: string, lexicon: Lexicon) => lexicon.words.has(word) || lexicon.known.has(word);

/** A word that may stand joined to another: of three letters, or a short one that turns or names. */
function isPart(word: string, lexicon: Lexicon): boolean {
  if (word.length > 2) return isOurs(word, lexicon);
  return sensesOf(word, lexicon).some((sense) => sense.role === 'mark' || sense.role === 'plot');
}

/** "ploughedplot" is two words when both are known and one of them is ours. */
export function unjoin(token: string, lexicon: Lexicon, parts: number): string[] | null {
  let best: string[] | null = null;
  for (let at = token.length - 2; at >= 1; at--) {
    const head = token.slice(0, at);
    const tail = token.slice(at);
    if (!isPart(head, lexicon)) continue;
    const whole = isPart(tail, lexicon) ? [tail] : null;
    const rest = whole ?? (parts > 2 && tail.length > 3 ? unjoin(tail, lexicon, parts - 1) : null);
    if (!rest) continue;
    const found = [head, ...rest];
    if (weight(found, lexicon) > (best ? weight(best, lexicon) : 0)) best = found;
  }
  return best && weight(best, lexicon) > 0 ? best : null;
}

/** Words that say something of their own. */
const BEARING = new Set(['act', 'verb', 'thing', 'plot', 'offset', 'weekday', 'stage']);

/** How many of the words say something of their own, fewer words first. */
const weight = (words: readonly string[], lexicon: Lexicon): number =>
  words.filter((word) => word.length > 2 && sensesOf(word, lexicon).some((sense) => BEARING.has(sense.role)))
    .length *
    4 -
  words.length;

/** True for a word that says what was done, where or when. */
export const isBearing = (word: string, lexicon: Lexicon): boolean =>
  sensesOf(word, lexicon).some((sense) => BEARING.has(sense.role));

/** True for a word that a slip may have made of "not" or "will". */
export const isNearTurning = (word: string, lexicon: Lexicon): boolean =>
  word.length >= 3 &&
  word.length <= 5 &&
  lexicon.turning.some((turn) => turn !== word && turn[0] === word[0] && slipsBetween(word, turn, 1) <= 1);
