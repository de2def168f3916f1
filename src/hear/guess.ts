/** The nearest known thing, where a text says nothing known: only ever put as a question. */
import type { Lexicon } from './lexicon.ts';
import { slipsBetween } from './nearness.ts';
import { inReach } from './reach.ts';
import type { Reading } from './reading.ts';
import type { Node } from './sense.ts';

/** Shorter words lie near too many others. */
const SHORTEST_GUESS = 5;
const LETTERS_A_SLIP = 3;
/** A text with more words that are not known is about something else. */
const MOST_UNKNOWN = 3;
/** What one may be asked about: a wrong guess at STOP or UNDO would only bother. */
const GUESSED: readonly Reading['kind'][] = ['report', 'not-done', 'intend'];

/** The text with each word that is not known replaced by the one word of work nearest to it; null when none is near. */
export function guessedText(text: string, nodes: readonly Node[], lexicon: Lexicon): string | null {
  const unknown = nodes.filter(({ strange }) => strange === true).sort((a, b) => a.from - b.from);
  if (unknown.length > MOST_UNKNOWN) return null;
  let guess = '';
  let at = 0;
  for (const { raw, from, to } of unknown) {
    const word = nearestWork(raw.toLowerCase(), lexicon);
    if (word === null) continue;
    guess += text.slice(at, from) + word;
    at = to;
  }
  return at === 0 ? null : guess + text.slice(at);
}

/** Readings that are worth asking about: a single one, of work. */
export function worthAsking(readings: readonly Reading[]): boolean {
  const [only] = readings;
  return readings.length === 1 && only !== undefined && GUESSED.includes(only.kind);
}

function nearestWork(token: string, lexicon: Lexicon): string | null {
  const isOurs = lexicon.known.has(token) || lexicon.words.has(token);
  if (token.length < SHORTEST_GUESS || isOurs) return null;
  const limit = Math.max(2, Math.floor(token.length / LETTERS_A_SLIP));
  let best: string | null = null;
  let bestAt = limit + 1;
  for (const { text: word } of inReach(token, limit, lexicon.reach)) {
    if (word[0] !== token[0] || !isWork(word, lexicon)) continue;
    const slips = slipsBetween(token, word, Math.min(limit, bestAt));
    if (slips < bestAt) [best, bestAt] = [word, slips];
  }
  return best;
}

const isWork = (word: string, lexicon: Lexicon): boolean =>
  lexicon.phrases.next.get(word)?.senses.some(({ role }) => role === 'act' || role === 'verb') ?? false;
