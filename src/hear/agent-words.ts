/** Commands that only an agent's phone is heard for: their words stand in no other list, so that they change no grower's text. */

import { AGENT_ONLY, type AgentOnly } from './agent-only.ts';
import { foldWord } from './fold.ts';
import { type Lexicon, phraseWords } from './lexicon.ts';

export interface AgentWord {
  readonly what: AgentOnly;
  /** The text without the command. */
  readonly rest: string;
}

const WORD = /[\p{L}\p{M}\p{Nd}']+/gu;

interface Word {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

const wordsOf = (cleaned: string): readonly Word[] =>
  [...cleaned.matchAll(WORD)].map((found) => ({
    text: foldWord(found[0]),
    from: found.index,
    to: found.index + found[0].length,
  }));

/**
 * The command at the beginning of a cleaned text; the longest phrase counts. Where verbs come last also at its end or within,
 * elsewhere at the end of a text of which `isOnly` says that the rest is a block or a plot ("upper more"). Null when there is none.
 */
export function agentWord(
  cleaned: string,
  lexicon: Lexicon,
  isOnly: (rest: string) => boolean,
): AgentWord | null {
  const words = wordsOf(cleaned);
  const texts = words.map(({ text }) => text);
  for (const { what, phrase } of phrasesOf(lexicon)) {
    const at = placeOf(phrase, texts);
    if (at < 0) continue;
    const [before, after] = [
      cleaned.slice(0, words[at]?.from),
      cleaned.slice(words[at + phrase.length - 1]?.to),
    ];
    const rest = `${before} ${after}`.trim();
    const isLast = at + phrase.length === words.length;
    if (at === 0 || lexicon.verbsLast || (isLast && isOnly(rest))) return { what, rest };
  }
  return null;
}

/** Whether a text begins with a word for everyone; the text behind it. */
export function behindEveryone(text: string, lexicon: Lexicon): string | null {
  const words = wordsOf(text);
  const texts = words.map((word) => word.text);
  const phrases = (lexicon.agentOnly.everyone ?? []).map(phraseWords).sort((a, b) => b.length - a.length);
  const phrase = phrases.find((one) => one.length > 0 && one.every((word, i) => texts[i] === word));
  return phrase ? text.slice(words[phrase.length - 1]?.to) : null;
}

/** The longest first. */
const phrasesOf = (lexicon: Lexicon) =>
  AGENT_ONLY.flatMap((what) =>
    (lexicon.agentOnly[what] ?? []).map((phrase) => ({ what, phrase: phraseWords(phrase) })),
  )
    .filter(({ phrase }) => phrase.length > 0)
    .sort((a, b) => b.phrase.length - a.phrase.length);

/** Where a phrase stands among the words; -1 when it does not. */
const placeOf = (phrase: readonly string[], texts: readonly string[]) =>
  texts.findIndex((_, at) => phrase.every((word, i) => texts[at + i] === word));
