import { describe, expect, test } from 'vitest';
import { buildLexicon } from '../../src/hear/lexicon.ts';
import { LANGUAGES } from './languages.ts';

const KEYS = ['abc', 'def', 'ghi', 'jkl', 'mno', 'pqrs', 'tuv', 'wxyz'];
const keyOf = new Map(
  KEYS.flatMap((letters, i) => [...letters].map((letter) => [letter, String(i + 2)] as const)),
);
const keyed = (word: string) => [...word].map((letter) => keyOf.get(letter) ?? letter).join('');

/** Pairs of words on the same keys whose mistaking is caught elsewhere, each with the reason. */
const LIVED_WITH: Readonly<Record<string, string>> = {
  'on|no': 'too short to be forgiven; predicted as written',
  'me|of': 'neither means work',
  'uvune|tutoe': 'two orders: neither is ever recorded',
};

for (const { lang, list } of LANGUAGES) {
  describe(`words of ${lang} on the same keys`, () => {
    const lexicon = buildLexicon(list);
    const weighty = [...lexicon.phrases.next].flatMap(([word, branch]) => {
      const found = branch.senses.find(
        (sense) =>
          sense.role === 'act' ||
          sense.role === 'verb' ||
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
  });
}
