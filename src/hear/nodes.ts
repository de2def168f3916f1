/** Turns tokens into nodes: the longest phrases of the word list, and whatever stands between them. */
import type { Branch, Lexicon } from './lexicon.ts';
import { recognise } from './recognise.ts';
import type { Node, Sense } from './sense.ts';
import type { Token } from './tokens.ts';

interface Piece {
  readonly token: Token;
  readonly word: string | null;
  readonly senses: readonly Sense[] | null;
}

function pieces(token: Token, lexicon: Lexicon): Piece[] {
  if (token.kind === 'ordinal') return [{ token, word: token.text, senses: null }];
  if (token.kind !== 'word') return [{ token, word: null, senses: null }];
  const found = recognise(token.text, lexicon);
  if (found === null) return [{ token, word: null, senses: null }];
  if ('senses' in found) return [{ token, word: null, senses: found.senses }];
  return found.words.map((word) => ({ token, word, senses: null }));
}

const ORDINAL: Sense = { role: 'ordinal', value: 'ordinal' };

interface Match {
  readonly senses: readonly Sense[];
  readonly end: number;
}

/** The longest phrase that begins at a piece; articles may stand between its words. */
function longest(all: readonly Piece[], start: number, lexicon: Lexicon): Match | null {
  let branch: Branch | undefined = lexicon.phrases;
  let best: Match | null = null;
  for (let i = start; i < all.length; i++) {
    const word: string | null = all[i]!.word;
    if (word === null) break;
    const next: Branch | undefined = branch.next.get(word);
    if (!next) {
      if (i > start && lexicon.articles.has(word)) continue;
      break;
    }
    branch = next;
    if (branch.senses.length > 0) best = { senses: branch.senses, end: i + 1 };
  }
  return best;
}

function lone(piece: Piece): Node {
  const { token } = piece;
  const base = {
    senses: piece.senses ?? [],
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
  return piece.senses ? base : { ...base, strange: true };
}

function numberIn(senses: readonly Sense[]): { value: number } | object {
  const found = senses.find((sense) => sense.role === 'number' || sense.role === 'ordinal');
  return found?.n === undefined ? {} : { value: found.n };
}

/** The nodes of a text, in order. */
export function toNodes(tokens: readonly Token[], lexicon: Lexicon): Node[] {
  const all = tokens.flatMap((token) => pieces(token, lexicon));
  const nodes: Node[] = [];
  for (let i = 0; i < all.length; ) {
    const match = longest(all, i, lexicon);
    if (!match) {
      nodes.push(lone(all[i]!));
      i += 1;
      continue;
    }
    const [first, last] = [all[i]!.token, all[match.end - 1]!.token];
    const raw = all
      .slice(i, match.end)
      .map((piece) => piece.token.raw)
      .join(' ');
    const ordinal = first === last && first.kind === 'ordinal';
    const senses = ordinal ? [...match.senses, ORDINAL] : match.senses;
    const value = ordinal ? { value: first.value! } : numberIn(senses);
    nodes.push({ senses, from: first.from, to: last.to, raw, glued: first.glued, ...value });
    i = match.end;
  }
  return nodes;
}
