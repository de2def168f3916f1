/** Chooses among words that are as near to what was typed, or says that none may be chosen. */
import type { Activity } from '../agronomy/season.ts';
import type { Lexicon } from './lexicon.ts';
import { turnOf, weightOf } from './near-words.ts';
import { slipsAllowed, slipsBetween } from './nearness.ts';
import type { Sense } from './sense.ts';

/** Words in their place, or senses when several words are as near, or null for a word that is not ours. */
export type Recognised = { readonly words: readonly string[] } | { readonly senses: readonly Sense[] } | null;

/** Stands for a word that may have turned the meaning round. */
export const DOUBT: readonly Sense[] = [{ role: 'mark', value: 'doubt' }];
const BROKEN_DAY: readonly Sense[] = [{ role: 'date', value: 'broken' }];

const sensesOf = (word: string, lexicon: Lexicon) => lexicon.phrases.next.get(word)?.senses ?? [];

const isDay = (word: string, lexicon: Lexicon) =>
  /^(offset|either|weekday|monthName)/.test(weightOf(word, lexicon) ?? '');

/** True when other work or another day, or a known misspelling of one, is as near: "strday" is no Saturday. */
function isOther(token: string, word: string, lexicon: Lexicon): boolean {
  const meant = weightOf(word, lexicon);
  if (meant === undefined) return false;
  const slips = Math.max(1, slipsBetween(token, word, 2));
  return lexicon.weighty.some(
    ({ text, right }) => weightOf(right, lexicon) !== meant && slipsBetween(token, text, slips) <= slips,
  );
}

const turnsRound = (senses: readonly Sense[]) =>
  senses.some(
    (sense) => sense.role === 'mark' && !['self', 'please', 'asker', 'along'].includes(sense.value),
  );

/** Of words that mean the same, the one that begins most phrases. */
const widest = (words: readonly string[], lexicon: Lexicon): string => {
  const phrasesOf = (word: string) => lexicon.phrases.next.get(word)?.next.size ?? 0;
  return words.reduce((best, word) => (phrasesOf(word) > phrasesOf(best) ? word : best));
};

/** Several words as near: one verb in several forms leaves its form open; several activities make a question. */
function chosen(words: readonly string[], token: string, lexicon: Lexicon): Recognised {
  const [first, ...rest] = words;
  if (first === undefined) return null;
  const signature = (word: string) => JSON.stringify(lexicon.phrases.next.get(word)?.senses ?? word);
  if (rest.every((word) => signature(word) === signature(first))) return { words: [widest(words, lexicon)] };
  const senses = words.map((word) => sensesOf(word, lexicon));
  const acts = senses.map((list) => list.find((sense) => sense.role === 'act' || sense.role === 'verb'));
  if (acts.every((act) => act !== undefined)) return openActs(words, acts, token, lexicon);
  if (words.some((word) => isDay(word, lexicon))) return { senses: BROKEN_DAY };
  const tellsWork = senses.some((list) => list.some((sense) => sense.role === 'thing'));
  const risky = acts.some((act) => act !== undefined) || tellsWork || senses.some(turnsRound);
  const common = senses[0]!.filter((one) =>
    senses.every((list) => list.some((sense) => sameSense(one, sense))),
  );
  if (risky && !turnsRound(common)) return { senses: DOUBT };
  // "used up" beside "finished" tells that nothing was put.
  if (senses.some(isLacking) && !isLacking(common)) return { senses: DOUBT };
  return common.length > 0 ? { senses: common } : null;
}

const isLacking = (senses: readonly Sense[]) => senses.some(({ role }) => role === 'lacking');

const sameSense = (a: Sense, b: Sense) => a.role === b.role && a.value === b.value && a.n === b.n;

/** "soakd" is as near to "soak" as to "soaked": the ending tells. Else the form, or even the work, stays open. */
function openActs(
  words: readonly string[],
  acts: readonly Sense[],
  token: string,
  lexicon: Lexicon,
): Recognised {
  const [first] = acts as [Sense, ...Sense[]];
  const values = [...new Set(acts.map((act) => act.value))];
  const pairs = words.map((word, i) => ({ word, act: acts[i]! }));
  const ending = pairs.filter(({ word }) => word.at(-1) === token.at(-1));
  const kept = ending.length > 0 ? ending : pairs;
  if (new Set(words.map((word) => turnOf(word, lexicon))).size > 1)
    return { senses: [{ ...first, form: 'plain' }, ...DOUBT] };
  const forms = new Set(kept.map(({ act }) => act.form));
  const [only] = forms;
  const form = forms.size === 1 && only ? only : 'plain';
  // Verbs that mean no work by themselves cannot be put as a question.
  if (values.length > 1 && acts.some(({ role }) => role === 'verb')) return { senses: DOUBT };
  if (values.length > 1)
    return { senses: [{ role: 'act', value: values.join('|'), form, several: values as Activity[] }] };
  if (forms.size === 1)
    return {
      words: [
        widest(
          kept.map(({ word }) => word),
          lexicon,
        ),
      ],
    };
  return { senses: [{ ...first, form }] };
}

/** What words as near as each other mean for the token; never a day that could be another. */
export function weigh(words: readonly string[], token: string, lexicon: Lexicon): Recognised {
  const found = chosen(words, token, lexicon);
  if (!found || !('words' in found) || !isOther(token, found.words[0]!, lexicon)) return found;
  return { senses: isDay(found.words[0]!, lexicon) ? BROKEN_DAY : DOUBT };
}

const SHORTEST_DAY = 4;

/** An unknown word near "yesterday" or "Monday" may be one: no other day may be assumed in its place. */
export function maybeDay(token: string, lexicon: Lexicon): Recognised {
  if (token.length < SHORTEST_DAY) return null;
  const slips = slipsAllowed(token.length + 1);
  const near = lexicon.weighty.some(
    ({ text, right }) => isDay(right, lexicon) && slipsBetween(token, text, slips) <= slips,
  );
  return near ? { senses: BROKEN_DAY } : null;
}
