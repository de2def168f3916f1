/** Finds quickly which words of a list may be within one or two slips of a token: by letters left out, and by the first letter. */

import { bitsMayMatch, letterBits } from './nearness.ts';

/** A word of ours, for finding it behind a slip. */
export interface FuzzyWord {
  readonly text: string;
  /** Slips that it is forgiven. */
  readonly slips: number;
  readonly bits: number;
  /** Its place in the list, by length first. */
  readonly place: number;
}

export interface Reach {
  /** Words that may be one slip away: those that share what is left when one letter is left out of each. */
  readonly byLess: ReadonlyMap<string, readonly FuzzyWord[]>;
  /** Words of a first letter, by length: two slips are forgiven only behind the same first letter. */
  readonly byStart: ReadonlyMap<string, readonly (readonly FuzzyWord[])[]>;
}

/** The word, and the word with each of its letters left out. */
function lessOne(word: string): Set<string> {
  const less = new Set([word]);
  for (let i = 0; i < word.length; i++) less.add(word.slice(0, i) + word.slice(i + 1));
  return less;
}

function addTo(map: Map<string, FuzzyWord[]>, key: string, word: FuzzyWord): void {
  const words = map.get(key);
  if (words) words.push(word);
  else map.set(key, [word]);
}

/** Makes words ready; `slipsOf` is how many slips each is forgiven. */
export function reachOf(words: Iterable<string>, slipsOf: (word: string) => number): Reach {
  const byLess = new Map<string, FuzzyWord[]>();
  const byStart = new Map<string, FuzzyWord[][]>();
  const sorted = [...words].sort((a, b) => a.length - b.length);
  for (const [place, text] of sorted.entries()) {
    const word: FuzzyWord = { text, slips: slipsOf(text), bits: letterBits(text), place };
    for (const less of lessOne(text)) addTo(byLess, less, word);
    const start = text[0] ?? '';
    const lengths = byStart.get(start) ?? [];
    byStart.set(start, lengths);
    while (lengths.length <= text.length) lengths.push([]);
    lengths[text.length]?.push(word);
  }
  return { byLess, byStart };
}

/** Words that may be within so many slips of the token, shorter ones first; those of two slips and more begin as it does. */
export function inReach(token: string, slips: number, { byLess, byStart }: Reach): readonly FuzzyWord[] {
  if (slips < 1) return [];
  const found = new Set<FuzzyWord>();
  for (const less of lessOne(token)) for (const word of byLess.get(less) ?? []) found.add(word);
  if (slips > 1) {
    const bits = letterBits(token);
    const lengths = byStart.get(token[0] ?? '') ?? [];
    for (const words of lengths.slice(Math.max(0, token.length - slips), token.length + slips + 1))
      for (const word of words) if (bitsMayMatch(bits, word.bits, slips)) found.add(word);
  }
  return [...found].sort((a, b) => a.place - b.place);
}
