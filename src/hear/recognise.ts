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

const sensesOf = (word: string, lexicon: Lexicon) => lexicon.phrases.next.get(word)?.senses ?? [];

const isOurs = (word: string, lexicon: Lexicon) => lexicon.words.has(word) || lexicon.known.has(word);

/** Two slips are forgiven only behind the same first letter, and never as two letters put before a word ("un-"). */
const alikeOutside = (token: string, word: string) => token[0] === word[0] && !token.endsWith(word);

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
  senses.some((sense) => sense.role === 'mark' && sense.value !== 'self' && sense.value !== 'please');

/** Several words as near: one verb in several forms leaves its form open; several activities make a question. */
function weigh(words: readonly string[], token: string, lexicon: Lexicon): Recognised {
  const [first, ...rest] = words;
  if (first === undefined) return null;
  const signature = (word: string) => JSON.stringify(lexicon.phrases.next.get(word)?.senses ?? word);
  if (rest.every((word) => signature(word) === signature(first))) return { words: [first] };
  const senses = words.map((word) => sensesOf(word, lexicon));
  const acts = senses.map((list) => list.find((sense) => sense.role === 'act' || sense.role === 'verb'));
  if (acts.every((act) => act !== undefined))
    return { senses: [openAct(acts, sameEnding(words, acts, token))] };
  const risky = acts.some((act) => act !== undefined) || senses.some(turnsRound);
  return risky ? { senses: DOUBT } : null;
}

/** "soakd" is as near to "soak" as to "soaked": the ending tells. */
const sameEnding = (words: readonly string[], acts: readonly Sense[], token: string): readonly Sense[] =>
  acts.filter((_, i) => words[i]!.at(-1) === token.at(-1));

function openAct(acts: readonly Sense[], ending: readonly Sense[]): Sense {
  const [first] = acts as [Sense, ...Sense[]];
  const forms = new Set((ending.length > 0 ? ending : acts).map((act) => act.form));
  const [only] = forms;
  const form = forms.size === 1 && only ? only : 'plain';
  const values = [...new Set(acts.map((act) => act.value))];
  if (values.length === 1) return { ...first, form };
  return { role: 'act', value: values.join('|'), form, several: values as Activity[] };
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

function listed(found: readonly string[] | undefined, token: string, lexicon: Lexicon): Recognised {
  return found === undefined ? null : weigh(found, token, lexicon);
}

function shortened(token: string, lexicon: Lexicon): Recognised {
  const found = lexicon.skeletons.get(skeleton(token));
  const ending = found?.filter((word) => word.at(-1) === token.at(-1));
  return listed(ending !== undefined && ending.length > 0 ? ending : undefined, token, lexicon);
}

/** Recognises one folded word. With English words, `recognise('ploughhed', …)` is `{ words: ['ploughed'] }`. */
export function recognise(token: string, lexicon: Lexicon): Recognised {
  const right = lexicon.spellings.get(token);
  if (right !== undefined) return { words: [right] };
  if (isOurs(token, lexicon)) return { words: [token] };
  const bare = token.replaceAll("'", '');
  if (isOurs(bare, lexicon)) return { words: [bare] };
  const calm = bare.replace(/(.)\1{2,}/gu, '$1');
  if (isOurs(calm, lexicon)) return { words: [calm] };
  if (bare.length > LONGEST_WORD) return null;
  if (bare.length <= 3) return maybeTurning(bare, lexicon);
  const doubled = squeeze(bare).length > 3 ? lexicon.squeezed.get(squeeze(bare)) : undefined;
  const found =
    listed(doubled, bare, lexicon) ??
    shortened(bare, lexicon) ??
    listed(nearest(bare, 1, lexicon), bare, lexicon);
  if (found) return found;
  const joined = bare.length >= SHORTEST_JOINED ? unjoin(bare, lexicon, 3) : null;
  if (joined) return { words: joined };
  return listed(nearest(bare, 2, lexicon), bare, lexicon) ?? maybeTurning(bare, lexicon);
}
