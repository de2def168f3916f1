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

/** The command at the beginning of a cleaned text, else at its end; the longest phrase counts. Null when there is none. */
export function agentWord(cleaned: string, lexicon: Lexicon): AgentWord | null {
  const words = [...cleaned.matchAll(WORD)].map((found) => ({
    text: foldWord(found[0]),
    from: found.index,
    to: found.index + found[0].length,
  }));
  const texts = words.map(({ text }) => text);
  const found = AGENT_ONLY.flatMap((what) =>
    (lexicon.agentOnly[what] ?? []).map((phrase) => ({ what, phrase: phraseWords(phrase) })),
  ).sort((a, b) => b.phrase.length - a.phrase.length);
  for (const { what, phrase } of found) {
    const { length } = phrase;
    if (length === 0 || length > words.length) continue;
    if (phrase.every((word, i) => texts[i] === word))
      return { what, rest: cleaned.slice(words[length - 1]?.to).trim() };
    const first = words.length - length;
    if (phrase.every((word, i) => texts[first + i] === word))
      return { what, rest: cleaned.slice(0, words[first]?.from).trim() };
    const at = lexicon.verbsLast ? placeOf(phrase, texts) : -1;
    if (at > 0)
      return {
        what,
        rest: `${cleaned.slice(0, words[at]?.from)} ${cleaned.slice(words[at + length - 1]?.to)}`.trim(),
      };
  }
  return null;
}

/** Where a phrase stands among the words; -1 when it does not. */
const placeOf = (phrase: readonly string[], texts: readonly string[]) =>
  texts.findIndex((_, at) => phrase.every((word, i) => texts[at + i] === word));
