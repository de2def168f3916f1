/** Turns tokens into nodes: the longest phrases of the word list, and whatever stands between them. */
import { asWords, type Piece } from './figure-words.ts';
import type { Form } from './forms.ts';
import type { Lexicon } from './lexicon.ts';
import type { Branch } from './phrase-tree.ts';
import { recognise } from './recognise.ts';
import type { Node, Sense } from './sense.ts';
import type { Token } from './tokens.ts';

function pieces(token: Token, lexicon: Lexicon): Piece[] {
  if (token.kind === 'ordinal') return [{ token, word: token.text, senses: null }];
  if (token.kind !== 'word') return [{ token, word: null, senses: null }];
  const found = recognise(token.text, lexicon);
  if (found === null) return [{ token, word: null, senses: null }];
  if ('senses' in found) return [{ token, word: null, senses: found.senses }];
  return found.words.map((word) => ({ token, word, senses: null }));
}

/** Forms that an accent decides; behind a slip the form was left open as plain. */
const OPEN: ReadonlySet<Form> = new Set<Form>(['same', 'present']);
const OPEN_SLIP: ReadonlySet<Form> = new Set<Form>(['same', 'present', 'plain']);

const ORDINAL: Sense = { role: 'ordinal', value: 'ordinal' };

interface Match {
  readonly senses: readonly Sense[];
  readonly end: number;
}

const longer = (a: Match | null, b: Match | null) => (b && (!a || b.end > a.end) ? b : a);

/** Articles that may stand in a row inside a phrase. */
const MOST_ARTICLES = 2;

/** The longest phrase that goes on from a piece; articles may stand between its words. `spare` is how many more may here. */
function longestFrom(
  all: readonly Piece[],
  at: number,
  branch: Branch,
  lexicon: Lexicon,
  inside: boolean,
  spare = MOST_ARTICLES,
): Match | null {
  const piece = all[at];
  if (inside && piece?.token.text === '-' && piece.token.glued)
    return longestFrom(all, at + 1, branch, lexicon, true);
  const word = piece?.word;
  if (word === null || word === undefined) return null;
  const next = branch.next.get(word);
  const here = next && next.senses.length > 0 ? { senses: next.senses, end: at + 1 } : null;
  const further = next && next.next.size > 0 ? longestFrom(all, at + 1, next, lexicon, true) : null;
  const skips = inside && spare > 0 && lexicon.articles.has(word);
  const past = skips ? longestFrom(all, at + 1, branch, lexicon, true, spare - 1) : null;
  // "est ce" asks: its article is not passed over for "est mise en boue", which tells what was done.
  return longer(longer(here, further), isQuestion(here) && isDone(past) ? null : past);
}

const isQuestion = (match: Match | null) =>
  match?.senses.some(({ role, value }) => role === 'mark' && value === 'question') ?? false;

const isDone = (match: Match | null) => match?.senses.some(({ form }) => form === 'done') ?? false;

const longest = (all: readonly Piece[], start: number, lexicon: Lexicon): Match | null =>
  longestFrom(all, start, lexicon.phrases, lexicon, false);

function lone(piece: Piece, lexicon: Lexicon): Node {
  const { token } = piece;
  const base = {
    senses: piece.senses === null ? [] : surelyDone(piece.senses, [piece], lexicon),
    from: token.from,
    to: token.to,
    raw: token.raw,
    glued: token.glued,
  };
  if (token.kind === 'mark') return { ...base, mark: token.text };
  if (token.kind === 'number')
    return { ...base, senses: [{ role: 'number', value: 'number' }], value: token.value! };
  if (token.kind === 'ordinal') return { ...base, senses: [ORDINAL], value: token.value! };
  if (token.kind === 'date') return { ...base, parts: token.parts! };
  if (token.kind === 'label') return { ...base, label: token.text };
  const known = piece.senses?.every((sense) => sense.value !== 'broken') ?? false;
  return known ? base : { ...base, strange: true };
}

function numberIn(senses: readonly Sense[]): { value: number } | object {
  const found = senses.find((sense) => sense.role === 'number' || sense.role === 'ordinal');
  return found?.n === undefined ? {} : { value: found.n };
}

/** "labouré" was done and "commencé" begun, where "laboure" and "commence" could be orders too: a typed accent tells. */
function surelyDone(senses: readonly Sense[], typed: readonly Piece[], lexicon: Lexicon): readonly Sense[] {
  const words = typed.map(({ token }) => token.raw.toLowerCase().normalize('NFC'));
  if (!lexicon.doneEndings.some((ending) => words.some((word) => word.endsWith(ending)))) return senses;
  const open = typed.some((piece) => piece.senses !== null) ? OPEN_SLIP : OPEN;
  const staged = senses.some((sense) => sense.role === 'stage');
  return senses
    .filter((sense) => !(staged && sense.role === 'mark' && sense.value === 'please'))
    .map((sense) => (sense.form && open.has(sense.form) ? { ...sense, form: 'done' } : sense));
}

/** Nobody ploughs or floods a phone: inside a report it is as strange as a word that is not known. */
const isOnlyPhone = (senses: readonly Sense[]): boolean =>
  senses.length > 0 && senses.every(({ role, value }) => role === 'account' && value === 'phone');

/** The nodes of a text, in order. */
export function toNodes(tokens: readonly Token[], lexicon: Lexicon): Node[] {
  const all = asWords(
    tokens.flatMap((token) => pieces(token, lexicon)),
    lexicon,
  );
  const nodes: Node[] = [];
  for (let i = 0; i < all.length; ) {
    const match = longest(all, i, lexicon);
    if (!match) {
      nodes.push(lone(all[i]!, lexicon));
      i += 1;
      continue;
    }
    const [first, last] = [all[i]!.token, all[match.end - 1]!.token];
    const raw = all
      .slice(i, match.end)
      .map((piece) => piece.token.raw)
      .join(' ');
    const ordinal = first === last && first.kind === 'ordinal';
    const said = surelyDone(match.senses, all.slice(i, match.end), lexicon);
    const senses = ordinal ? [...said, ORDINAL] : said;
    const value = ordinal ? { value: first.value! } : numberIn(senses);
    const strange = isOnlyPhone(senses) ? { strange: true } : {};
    nodes.push({ senses, from: first.from, to: last.to, raw, glued: first.glued, ...value, ...strange });
    i = match.end;
  }
  return nodes;
}
