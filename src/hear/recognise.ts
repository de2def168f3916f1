/** Finds the word of ours behind a token: exact, with doubled letters, joined to another, shortened, or with a slip. */
import type { Activity } from '../agronomy/season.ts';
import type { Lexicon } from './lexicon.ts';
import { bitsMayMatch, letterBits, skeleton, slipsAllowed, slipsBetween, squeeze } from './nearness.ts';
import type { Sense } from './sense.ts';

/** Words in their place, or senses when several words are as near, or null for a word that is not ours. */
export type Recognised = { readonly words: readonly string[] } | { readonly senses: readonly Sense[] } | null;

const SHORTEST_JOINED = 6;
const LONGEST_WORD = 32;
const DOUBT: readonly Sense[] = [{ role: 'mark', value: 'doubt' }];

const BROKEN_DAY: readonly Sense[] = [{ role: 'date', value: 'broken' }];

const sensesOf = (word: string, lexicon: Lexicon) => lexicon.phrases.next.get(word)?.senses ?? [];

const isOurs = (word: string, lexicon: Lexicon) => lexicon.words.has(word) || lexicon.known.has(word);

/** Two slips are forgiven only behind the same first letter, and never as two letters put before a word ("un-"). */
const alikeOutside = (token: string, word: string) => token[0] === word[0] && !token.endsWith(word);

const isDay = (word: string, lexicon: Lexicon) =>
  /^(offset|weekday|monthName)/.test(weightOf(word, lexicon) ?? '');

/** True when another day's name, or a known misspelling of one, is as near: "strday" is no Saturday. */
function isOtherDay(token: string, word: string, lexicon: Lexicon): boolean {
  if (!isDay(word, lexicon)) return false;
  const slips = slipsBetween(token, word, 2);
  return lexicon.dayWords.some(
    ({ text, right }) =>
      weightOf(right, lexicon) !== weightOf(word, lexicon) && slipsBetween(token, text, slips) <= slips,
  );
}

/** Words within so many slips, nearest only. A word with something put before it is another word ("un-"). */
function nearest(token: string, slips: number, lexicon: Lexicon): string[] {
  const bits = letterBits(token);
  const limit = Math.min(slips, slipsAllowed(token.length));
  let best: string[] = [];
  let bestAt = limit;
  for (let length = token.length - limit; length <= token.length + limit; length++) {
    for (const word of lexicon.byLength[length] ?? []) {
      const bound = Math.min(bestAt, slipsAllowed(word.text.length));
      if (!bitsMayMatch(bits, word.bits, bound)) continue;
      const distance = slipsBetween(token, word.text, bound);
      if (distance > bound || (distance > 1 && !alikeOutside(token, word.text))) continue;
      if (distance < bestAt) best = [];
      bestAt = distance;
      best.push(word.text);
    }
  }
  return best;
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
function weigh(words: readonly string[], token: string, lexicon: Lexicon): Recognised {
  const [first, ...rest] = words;
  if (first === undefined) return null;
  const signature = (word: string) => JSON.stringify(lexicon.phrases.next.get(word)?.senses ?? word);
  if (rest.every((word) => signature(word) === signature(first))) return { words: [widest(words, lexicon)] };
  const senses = words.map((word) => sensesOf(word, lexicon));
  const acts = senses.map((list) => list.find((sense) => sense.role === 'act' || sense.role === 'verb'));
  if (acts.every((act) => act !== undefined)) return openActs(words, acts, token, lexicon);
  if (words.some((word) => isDay(word, lexicon))) return { senses: BROKEN_DAY };
  const risky = acts.some((act) => act !== undefined) || senses.some(turnsRound);
  const common = senses[0]!.filter((one) =>
    senses.every((list) => list.some((sense) => sameSense(one, sense))),
  );
  if (risky && !turnsRound(common)) return { senses: DOUBT };
  return common.length > 0 ? { senses: common } : null;
}

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
  const forms = new Set(kept.map(({ act }) => act.form));
  const [only] = forms;
  const form = forms.size === 1 && only ? only : 'plain';
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

/** A word that may stand joined to another: of three letters, or a short one that turns or names. */
function isPart(word: string, lexicon: Lexicon): boolean {
  if (word.length > 2) return isOurs(word, lexicon);
  return sensesOf(word, lexicon).some((sense) => sense.role === 'mark' || sense.role === 'plot');
}

/** "ploughedplot" is two words when both are known and one of them is ours. */
function unjoin(token: string, lexicon: Lexicon, parts: number): string[] | null {
  let best: string[] | null = null;
  for (let at = token.length - 2; at >= 1; at--) {
    const head = token.slice(0, at);
    const tail = token.slice(at);
    if (!isPart(head, lexicon)) continue;
    const whole = isPart(tail, lexicon) ? [tail] : null;
    const rest = whole ?? (parts > 2 && tail.length > 3 ? unjoin(tail, lexicon, parts - 1) : null);
    if (!rest) continue;
    const found = [head, ...rest];
    if (weight(found, lexicon) > (best ? weight(best, lexicon) : 0)) best = found;
  }
  return best && weight(best, lexicon) > 0 ? best : null;
}

const BEARING = new Set(['act', 'verb', 'thing', 'plot', 'offset', 'weekday', 'stage']);

/** How many of the words say something of their own, fewer words first. */
const weight = (words: readonly string[], lexicon: Lexicon): number =>
  words.filter((word) => word.length > 2 && sensesOf(word, lexicon).some((sense) => BEARING.has(sense.role)))
    .length *
    4 -
  words.length;

/** A short unknown word that is a slip away from "not" or "will" may turn the meaning round: doubt it. */
function maybeTurning(token: string, lexicon: Lexicon): Recognised {
  if (token.length < 3 || token.length > 5) return null;
  const near = lexicon.turning.some((word) => word[0] === token[0] && slipsBetween(token, word, 1) <= 1);
  return near ? { senses: DOUBT } : null;
}

const SHORTEST_DAY = 4;

/** An unknown word near "yesterday" or "Monday" may be one: no other day may be assumed in its place. */
function maybeDay(token: string, lexicon: Lexicon): Recognised {
  if (token.length < SHORTEST_DAY || token.length > LONGEST_WORD) return null;
  const slips = slipsAllowed(token.length + 1);
  const near = lexicon.dayWords.some(({ text }) => slipsBetween(token, text, slips) <= slips);
  return near ? { senses: BROKEN_DAY } : null;
}

/** True when dropping letters of the word gives the token. */
function isWithin(token: string, word: string): boolean {
  let at = 0;
  for (const letter of word) if (letter === token[at]) at++;
  return at === token.length;
}

/** Words that the token shortens: "plghd", "levld". */
function shortened(token: string, lexicon: Lexicon): string[] {
  const found = lexicon.skeletons.get(skeleton(token)) ?? [];
  return found.filter((word) => word.at(-1) === token.at(-1) && isWithin(squeeze(token), squeeze(word)));
}

const CLASHING = new Set(['act', 'verb', 'offset', 'weekday', 'monthName']);

/** What a word must not be mistaken in: which work, which day. */
const weightOf = (word: string, lexicon: Lexicon): string | undefined => {
  const sense = sensesOf(word, lexicon).find((one) => CLASHING.has(one.role));
  return sense && `${sense.role}:${sense.value}:${sense.n ?? ''}`;
};

/** Doubled and shortened words first, unless a slip makes another work or another day. */
function preferred(token: string, lexicon: Lexicon): readonly string[] {
  const doubled = squeeze(token).length > 3 ? (lexicon.squeezed.get(squeeze(token)) ?? []) : [];
  const first = doubled.length > 0 ? doubled : shortened(token, lexicon);
  const near = nearest(token, 1, lexicon);
  if (first.length === 0) return near;
  const meant = new Set(
    [...first, ...near].map((word) => weightOf(word, lexicon)).filter((one) => one !== undefined),
  );
  return meant.size > 1 ? [...new Set([...first, ...near])] : first;
}

/** What was found, unless it names a day that could be another. */
function settled(found: Recognised, token: string, lexicon: Lexicon): Recognised {
  if (!found || !('words' in found) || !isOtherDay(token, found.words[0]!, lexicon)) return found;
  return { senses: BROKEN_DAY };
}

/** Recognises one folded word. With English words, `recognise('ploughhed', …)` is `{ words: ['ploughed'] }`. */
export function recognise(token: string, lexicon: Lexicon): Recognised {
  const right = lexicon.spellings.get(token);
  if (right !== undefined) return { words: [right] };
  if (isOurs(token, lexicon)) return { words: [token] };
  const bare = token.replaceAll("'", '');
  if (isOurs(bare, lexicon)) return { words: [bare] };
  const calm = ['$1$1', '$1']
    .map((once) => bare.replace(/(.)\1{2,}/gu, once))
    .find((word) => isOurs(word, lexicon));
  if (calm !== undefined) return { words: [calm] };
  if (bare.length > LONGEST_WORD) return null;
  if (bare.length <= 3) return maybeTurning(bare, lexicon);
  const found = settled(weigh(preferred(bare, lexicon), bare, lexicon), bare, lexicon);
  if (found) return found;
  const joined = bare.length >= SHORTEST_JOINED ? unjoin(bare, lexicon, 3) : null;
  if (joined) return { words: joined };
  return (
    settled(weigh(nearest(bare, 2, lexicon), bare, lexicon), bare, lexicon) ??
    maybeTurning(bare, lexicon) ??
    maybeDay(bare, lexicon)
  );
}
