/** The names of blocks in an agent's text: "A", "block A", "block upper"; on an agent's phone also the scheme's names alone. */
import { foldWord } from './fold.ts';
import { slipsBetween } from './nearness.ts';
import { means, type Node, senseOf } from './sense.ts';

export interface BlockSaid {
  readonly name: string | null;
  /** The place of the node behind it. */
  readonly next: number;
}

/** Words that one name may have. */
const MOST_WORDS = 4;

const bare = (text: string) => foldWord(text).replace(/[^\p{L}\p{M}\p{Nd}]/gu, '');

/** A slip of the finger is forgiven in names of so many letters. */
const SHORTEST_SLIPPED = 5;

/** A name, the first word of only one name, or what is one slip from only one. */
function named(said: string, names: readonly string[]): string | undefined {
  const whole = names.find((name) => bare(name) === said);
  if (whole !== undefined) return whole;
  const begun = names.filter((name) => bare(name.split(/\s/)[0] ?? '') === said);
  if (begun.length > 0) return begun.length === 1 ? begun[0] : undefined;
  const near = names.filter(
    (name) => bare(name).length >= SHORTEST_SLIPPED && slipsBetween(said, bare(name), 1) <= 1,
  );
  return near.length === 1 ? near[0] : undefined;
}

/** One of the scheme's own names, as the scheme writes it. */
function ownName(nodes: readonly Node[], at: number, names: readonly string[]): BlockSaid {
  let said = '';
  let found: BlockSaid = { name: null, next: at };
  for (let next = at; next < Math.min(nodes.length, at + MOST_WORDS); next++) {
    if (nodes[next]?.mark !== undefined && nodes[next]?.mark !== '-') break;
    said += bare(nodes[next]?.raw ?? '');
    const name = named(said, names);
    if (name !== undefined) found = { name, next: next + 1 };
  }
  // "the upper block"
  const behind = found.name !== null && means(nodes[found.next], 'agent', 'block') ? 1 : 0;
  return { ...found, next: found.next + behind };
}

/** "to Upper", "à Upper": a word or letter before a name. */
const isSmall = (node: Node | undefined) =>
  node !== undefined && (node.raw.length === 1 || SMALL.some((role) => senseOf(node, role) !== undefined));

const SMALL = ['article', 'join', 'filler', 'date'] as const;

/** The block named at a place: one letter, any word after the word for block, or one of `names`. */
export function blockAt(nodes: readonly Node[], at: number, names: readonly string[] = []): BlockSaid {
  const named = means(nodes[at], 'agent', 'block');
  const own = ownName(nodes, at + (named ? 1 : 0), names);
  if (own.name !== null) return own;
  const led = names.length > 0 && isSmall(nodes[at]) ? ownName(nodes, at + 1, names) : own;
  if (led.name !== null) return led;
  const node = nodes[at + (named ? 1 : 0)];
  if (!node || node.mark !== undefined) return { name: null, next: at };
  // "l'agent" names no block L.
  const behind = nodes[at + (named ? 2 : 1)];
  const elided = behind?.glued === true && behind.mark === undefined;
  const single = /^\p{L}\d?$/u.test(node.raw) && !elided;
  if (single || (named && !node.said))
    return { name: single ? node.raw.toUpperCase() : node.raw, next: at + (named ? 2 : 1) };
  return { name: null, next: at };
}

/** The first block named anywhere in a text. */
export function blockIn(nodes: readonly Node[], names: readonly string[]): string | null {
  for (const at of nodes.keys()) {
    const { name } = blockAt(nodes, at, names);
    if (name !== null && (means(nodes[at], 'agent', 'block') || names.includes(name))) return name;
  }
  return null;
}
