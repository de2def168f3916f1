/** Which words of a language belong to its phrases about work, water, machines and weather, and which of a text it has in no list. */
import { clean, foldWord } from './fold.ts';
import type { Lexicon } from './lexicon.ts';

const wordsOf = (text: string) => (clean(text).match(/[\p{L}\p{M}']+/gu) ?? []).map(foldWord);

/** Words of a text that stand in some phrase about the work, spelled as there. With English words, "Asha, pump" has "pump". */
export function workWordsIn(text: string, { ofWork, spellings }: Lexicon): readonly string[] {
  return wordsOf(text).filter((word) => ofWork.has(spellings.get(word) ?? word));
}

/** Words of a text in none of the language's phrases: names, slips, ordinary words, and words of other languages. */
export function strangersIn(text: string, lexicon: Lexicon): readonly string[] {
  const { words, spellings, optOutWords } = lexicon;
  return wordsOf(text).filter((word) => !words.has(word) && !spellings.has(word) && !optOutWords.has(word));
}
