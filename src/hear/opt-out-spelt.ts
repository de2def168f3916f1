/** The words that end the texts, spelled letter by letter, and the long ones with a slip: both made into the word that is meant. */
import { foldWord } from './fold.ts';
import type { Lexicon } from './lexicon.ts';
import { slipsBetween } from './nearness.ts';

/** Three single letters or more, with nothing but spaces and marks between. */
const LETTERS = /(?<![\p{L}\p{M}\p{N}])\p{L}\p{M}*(?:[\s.,*_/-]+\p{L}\p{M}*){2,}(?![\p{L}\p{M}\p{N}])/gu;
const WORD = /[\p{L}\p{M}']+/gu;
/** Letters that a word must have to be forgiven one slip, or two: shorter ones are too near to other words. */
const LETTERS_FOR_SLIPS = [9, 10] as const;

/** The one word that the letters make, by itself or as far as it goes: "S T O P" is "STOP", "S T O P a b" stays. */
function joined(letters: string, lexicon: Lexicon): string {
  const word = letters.replace(/[^\p{L}\p{M}]/gu, '');
  return lexicon.endingWords.includes(foldWord(word)) ? word : letters;
}

const slipsFor = (word: string) => LETTERS_FOR_SLIPS.filter((letters) => word.length >= letters).length;

/** The long word behind a slip; a word of the language is none, nor one that begins with another letter ("subscribe"). */
function forgiven(typed: string, { endingWords, words, known }: Lexicon): string {
  const word = foldWord(typed);
  if (words.has(word) || known.has(word)) return typed;
  const meant = endingWords.find((one) => {
    const slips = slipsFor(one);
    return slips > 0 && one[0] === word[0] && slipsBetween(word, one, slips) <= slips;
  });
  return meant ?? typed;
}

/** The text with these words as they were meant; null when it has none. */
export function withEndingsSpelt(text: string, lexicon: Lexicon): string | null {
  const whole = text.replace(LETTERS, (letters) => joined(letters, lexicon));
  const right = whole.replace(WORD, (word) => forgiven(word, lexicon));
  return right === text ? null : right;
}
