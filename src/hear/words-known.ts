/** How many words of a text are words of a language: by this a text tells which language it is in. */
import { clean } from './fold.ts';
import { type Lexicon, spellingOf } from './lexicon.ts';
import { tokenise } from './tokens.ts';

/** Words that stand in the list as typed, slips not counted. With English words, `wordsKnown('ploughed the zzz 3', …)` is 2. */
export function wordsKnown(text: string, lexicon: Lexicon): number {
  const isKnown = (word: string) =>
    lexicon.words.has(word) || lexicon.spellings.has(word) || lexicon.known.has(word);
  const tokens = tokenise(clean(text), spellingOf(lexicon));
  return tokens.filter((token) => token.kind === 'word' && isKnown(token.text)).length;
}
