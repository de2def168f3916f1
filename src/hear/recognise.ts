/** Finds the word of ours behind a token: exact, with doubled letters, joined to another, shortened, or with a slip. */
import type { Lexicon } from './lexicon.ts';
import { nearest, preferred } from './near-words.ts';
import { alikeKey } from './nearness.ts';
import { isBearing, isNearTurning, unjoin } from './unjoin.ts';
import { DOUBT, maybeDay, type Recognised, weigh } from './weigh.ts';

const SHORTEST_JOINED = 6;
const LONGEST_WORD = 32;
const isOurs = (word: string, lexicon: Lexicon) => lexicon.words.has(word) || lexicon.known.has(word);

/** A short unknown word that is a slip away from "not" or "will" may turn the meaning round: doubt it. */
const maybeTurning = (token: string, lexicon: Lexicon): Recognised =>
  isNearTurning(token, lexicon) ? { senses: DOUBT } : null;

/** "chash" for "chas" where "sh" may stand for "s"; a word known as it is never comes here. */
function spelt(token: string, lexicon: Lexicon): Recognised {
  if (lexicon.alike.length === 0) return null;
  const key = alikeKey(token, lexicon.alike);
  const found = weigh(lexicon.byAlike.get(key) ?? [], token, lexicon);
  return found ?? (lexicon.known.has(key) ? { words: [key] } : null);
}

/** Words typed as one; "noteploughed" may have been "not ploughed". */
function apart(token: string, lexicon: Lexicon): Recognised {
  const words = token.length >= SHORTEST_JOINED ? unjoin(token, lexicon, 3) : null;
  if (!words) return null;
  const turns = words.some(
    (word) => !lexicon.turning.includes(word) && !isBearing(word, lexicon) && isNearTurning(word, lexicon),
  );
  return turns ? { senses: DOUBT } : { words };
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
  const otherwise = spelt(bare, lexicon);
  if (otherwise) return otherwise;
  if (bare.length <= 3) return maybeTurning(bare, lexicon);
  const found = weigh(preferred(bare, lexicon), bare, lexicon);
  if (found) return found;
  const joined = apart(bare, lexicon);
  if (joined) return joined;
  return (
    weigh(nearest(bare, 2, lexicon), bare, lexicon) ?? maybeTurning(bare, lexicon) ?? maybeDay(bare, lexicon)
  );
}
