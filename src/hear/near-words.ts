/** The words of a language that are near to what was typed: by a slip, a doubled letter, dropped vowels. */
import type { Lexicon } from './lexicon.ts';
import { skeleton, slipsAllowed, slipsBetween, squeeze } from './nearness.ts';
import { inReach } from './reach.ts';

const CLASHING = new Set(['act', 'verb', 'stage', 'offset', 'either', 'weekday', 'monthName']);

/** What a word must not be mistaken in: which work, which day. */
export const weightOf = (word: string, lexicon: Lexicon): string | undefined => {
  const sense = lexicon.phrases.next.get(word)?.senses?.find((one) => CLASHING.has(one.role));
  return sense && `${sense.role}:${sense.value}:${sense.n ?? ''}`;
};

/** What a word carries that turns its meaning round: it denies, looks ahead, names another doer. */
export function turnOf(word: string, lexicon: Lexicon): string {
  const senses = lexicon.phrases.next.get(word)?.senses ?? [];
  return senses
    .map(({ role, value, form }) =>
      role === 'mark' ? value : form === 'not' || form === 'future' ? form : '',
    )
    .join('');
}

/** Two slips are forgiven only behind the same first letter, and never as two letters put before a word ("un-"). */
const alikeOutside = (token: string, word: string) => token[0] === word[0] && !token.endsWith(word);

/** Words within so many slips, nearest only. A word with something put before it is another word ("un-"). */
export function nearest(token: string, slips: number, lexicon: Lexicon): string[] {
  const limit = Math.min(slips, slipsAllowed(token.length));
  let best: string[] = [];
  let bestAt = limit;
  for (const word of inReach(token, limit, lexicon.reach)) {
    const bound = Math.min(bestAt, word.slips);
    const distance = slipsBetween(token, word.text, bound);
    if (distance > bound || (distance > 1 && !alikeOutside(token, word.text))) continue;
    if (distance < bestAt) best = [];
    bestAt = distance;
    best.push(word.text);
  }
  return best;
}

/** True when dropping letters of the word gives the token. */
function isWithin(token: string, word: string): boolean {
  let at = 0;
  for (const letter of word) if (letter === token[at]) at++;
  return at === token.length;
}

/** Words that the token shortens: "plghd", "levld". */
function shortened(token: string, lexicon: Lexicon): string[] {
  const found = lexicon.skeletons.get(skeleton(token)) ?? [];
  return found.filter((word) => word.at(-1) === token.at(-1) && isWithin(squeeze(token), squeeze(word)));
}

/** Doubled and shortened words first, unless a slip makes another work or another day, or turns the meaning round. */
export function preferred(token: string, lexicon: Lexicon): readonly string[] {
  const doubled = squeeze(token).length > 3 ? (lexicon.squeezed.get(squeeze(token)) ?? []) : [];
  const first = doubled.length > 0 ? doubled : shortened(token, lexicon);
  const near = nearest(token, 1, lexicon);
  if (first.length === 0) return near;
  const meant = new Set(
    [...first, ...near].flatMap((word) => {
      const weight = weightOf(word, lexicon);
      return weight === undefined ? [] : `${weight} ${turnOf(word, lexicon)}`;
    }),
  );
  return meant.size > 1 ? [...new Set([...first, ...near])] : first;
}
