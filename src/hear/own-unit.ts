/** A scheme's own unit of area among a language's words: which words it may take, and the lexicon that hears them. */
import { type AreaUnit, haIn } from '../scheme/area-unit.ts';
import { buildLexicon, type Lexicon, phraseWords } from './lexicon.ts';
import { recognise } from './recognise.ts';
import type { WordList } from './word-list.ts';

/** The unit's name among the units of a language. */
export const OWN_UNIT = 'scheme-area';

/** The lexicon of a word list in which the unit's words are a unit of area as well. */
export function lexiconWith(list: WordList, unit: AreaUnit): Lexicon {
  const own = { words: [...unit.words], kind: 'area' as const, factor: haIn(unit) };
  return buildLexicon({ ...list, units: { ...list.units, [OWN_UNIT]: own } });
}

/** A language's lexicon, and one for each unit of area that a scheme brings: built when first asked for, and kept. */
export function lexiconsFor(list: WordList, plain: Lexicon): (unit?: AreaUnit) => Lexicon {
  const built = new Map<string, Lexicon>();
  return (unit) => {
    if (unit === undefined) return plain;
    const key = `${unit.words.join(' ')} ${unit.m2}`;
    const own = built.get(key) ?? lexiconWith(list, unit);
    built.set(key, own);
    return own;
  };
}

/**
 * Why a word cannot name a unit of area beside the language's own words; null when it can. A container's name may be a
 * piece of land's as well. With English words, "acre" already means something, "plott" is read as "plot".
 */
export function whyTaken(word: string, lexicon: Lexicon): string | null {
  const folded = phraseWords(word).join(' ');
  if (lexicon.words.has(folded)) return isContainer(folded, lexicon) ? null : 'already means something';
  const heard = recognise(folded, lexicon);
  if (heard === null) return null;
  if ('senses' in heard) return 'is too near to a word that means something';
  const means = heard.words.some((one) => one !== folded && !isEmpty(one, lexicon));
  return means ? `is read as "${heard.words.join(' ')}"` : null;
}

/** True for words that change nothing. */
function isEmpty(word: string, lexicon: Lexicon): boolean {
  const senses = lexicon.phrases.next.get(word)?.senses ?? [];
  return senses.length > 0 && senses.every(({ role }) => role === 'filler' || role === 'greeting');
}

function isContainer(word: string, lexicon: Lexicon): boolean {
  const senses = lexicon.phrases.next.get(word)?.senses ?? [];
  return (
    senses.length > 0 &&
    senses.every(({ role, value }) => role === 'unit' && lexicon.units[value]?.kind === 'amount')
  );
}
