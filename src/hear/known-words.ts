/** Ordinary words of a language, never taken for misspelt words of ours: single words, and stems in every form of the patterns. */
import type { WordList } from './word-list.ts';

export interface KnownWords {
  readonly has: (word: string) => boolean;
}

/** `knownWords(new Set(['house']), new Set(['pay']), { done: ['~ed'] })` has "house" and "payed". */
export function knownWords(
  words: ReadonlySet<string>,
  stems: ReadonlySet<string>,
  patterns: WordList['patterns'],
): KnownWords {
  if (stems.size === 0) return words;
  const affixes = [...new Set(Object.values(patterns).flat())].flatMap((pattern) => {
    const [before = '', after = ''] = pattern.split('~');
    return pattern.includes(' ') ? [] : [{ before, after }];
  });
  const grows = (word: string) =>
    affixes.some(
      ({ before, after }) =>
        word.length > before.length + after.length &&
        word.startsWith(before) &&
        word.endsWith(after) &&
        stems.has(word.slice(before.length, word.length - after.length)),
    );
  return { has: (word) => words.has(word) || grows(word) };
}
