import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { buildLexicon } from '../../src/hear/lexicon.ts';
import { LANGUAGES, reportsIn } from './languages.ts';

const KEYS = ['abc', 'def', 'ghi', 'jkl', 'mno', 'pqrs', 'tuv', 'wxyz'];
const keyOf = new Map(
  KEYS.flatMap((letters, i) => [...letters].map((letter) => [letter, String(i + 2)] as const)),
);
const keyed = (word: string) => [...word].map((letter) => keyOf.get(letter) ?? letter).join('');

/** Pairs of words on the same keys whose mistaking is caught elsewhere, each with the reason. */
const LIVED_WITH: Readonly<Record<string, string>> = {
  'on|no': 'too short to be forgiven; predicted as written',
  'me|of': 'neither means work',
  'not|nov': 'three taps for one; a phone that guesses writes "not" first',
  'never|meter': 'a letter off; a phone that guesses writes "never" first',
};

const isWord = (word: string) => /^[a-z]{2,}$/.test(word);

function onTheSameKeys(words: Iterable<string>): ReadonlyMap<string, readonly string[]> {
  const byKeys = new Map<string, string[]>();
  for (const word of words) byKeys.set(keyed(word), [...(byKeys.get(keyed(word)) ?? []), word]);
  return byKeys;
}

for (const { lang, list, lexicon, phrases } of LANGUAGES) {
  describe(`words of ${lang} on the same keys`, () => {
    const weighty = [...buildLexicon(list).phrases.next].flatMap(([word, branch]) => {
      const found = branch.senses.find(
        (sense) =>
          sense.role === 'act' ||
          (sense.role === 'mark' && ['not', 'future', 'nothing'].includes(sense.value)),
      );
      return found && word.length > 2 ? [{ word, meaning: `${found.role}:${found.value}` }] : [];
    });

    test('no two activities, and no activity and denial, are one slip of prediction apart', () => {
      const byKeys = new Map<string, { word: string; meaning: string }>();
      const clashes: string[] = [];
      for (const one of weighty) {
        const other = byKeys.get(keyed(one.word));
        if (other && other.meaning !== one.meaning && !LIVED_WITH[`${other.word}|${one.word}`]) {
          clashes.push(`${other.word} (${other.meaning}) and ${one.word} (${one.meaning})`);
        }
        byKeys.set(keyed(one.word), one);
      }
      expect(clashes).toEqual([]);
    });

    /** "par laboure" for "pas laboure": the words of the line, and those it knows, that stand on the keys of a denial. */
    test('a word that turns the meaning, written as another on its keys, records no work', () => {
      const byKeys = onTheSameKeys(
        [...lexicon.words, ...Object.values(list.knownWords).flat()].filter(isWord),
      );
      const turning = new Set(lexicon.turning);
      const recorded = (text: string) => reportsIn(hear(text, lexicon, phrases!.today)).length;
      const wrong = phrases!.groups
        .filter(({ reads }) => reads.every(({ kind }) => kind === 'not-done' || kind === 'intend'))
        .flatMap(({ texts }) => texts)
        .flatMap((text) =>
          [...text.toLowerCase().matchAll(/[a-z]{2,}/g)]
            .filter(([word]) => turning.has(word))
            .flatMap(({ 0: word, index }) =>
              (byKeys.get(keyed(word)) ?? [])
                .filter((other) => !turning.has(other) && !LIVED_WITH[`${word}|${other}`])
                .map((other) => text.slice(0, index) + other + text.slice(index + word.length)),
            ),
        )
        .filter((typed) => recorded(typed) > 0);
      expect(wrong).toEqual([]);
    });
  });
}
