/** Plain requests to be left alone, told by words that all belong to one: any other word makes a text something else. */
import { foldWord } from './fold.ts';
import type { Lexicon } from './lexicon.ts';
import type { Branch } from './phrase-tree.ts';
import { type Node, senseOf } from './sense.ts';

/** Words of a name. */
const LONGEST_NAME = 3;

/** What a word may be written as in the lists: without its apostrophe, with its letters once, or spelt rightly. */
function writings(word: string, { spellings }: Lexicon): readonly string[] {
  const bare = word.replaceAll("'", '');
  const calm = bare.replace(/(.)\1{2,}/gu, '$1');
  const right = spellings.get(word) ?? spellings.get(bare);
  return right === undefined ? [bare, calm] : [bare, calm, right];
}

/** The longest phrase of the tree from a word on: the word behind it, and the lists that it stands in. */
function longest(
  words: readonly string[],
  at: number,
  branch: Branch,
  lexicon: Lexicon,
): { readonly end: number; readonly lists: readonly string[] } | null {
  const word = words[at];
  if (word === undefined) return null;
  for (const writing of writings(word, lexicon)) {
    const next = branch.next.get(writing);
    if (next === undefined) continue;
    const further = longest(words, at + 1, next, lexicon);
    if (further) return further;
    if (next.senses.length > 0) return { end: at + 1, lists: next.senses.map(({ value }) => value) };
  }
  return null;
}

/** The lists of each phrase, in order; null when a word stands in none. */
function phrasesIn(words: readonly string[], lexicon: Lexicon): readonly (readonly string[])[] | null {
  const phrases: (readonly string[])[] = [];
  for (let at = 0; at < words.length; ) {
    const found = longest(words, at, lexicon.optOut, lexicon);
    if (!found) return null;
    phrases.push(found.lists);
    at = found.end;
  }
  return phrases;
}

/** Words of the nodes as texted; what joins two of them ("laissez-moi") is none. */
const wordsIn = (nodes: readonly Node[]) =>
  nodes
    .filter(({ mark }) => mark === undefined)
    .flatMap(({ raw }) => raw.split(' '))
    .filter((word) => /[\p{L}\p{N}]/u.test(word))
    .map(foldWord);

/** The nodes between marks. */
function clausesOf(nodes: readonly Node[]): readonly (readonly Node[])[] {
  const clauses: Node[][] = [[]];
  for (const node of nodes) {
    if (node.mark === undefined) clauses.at(-1)?.push(node);
    else if (node.mark !== '-') clauses.push([]);
  }
  return clauses;
}

const ENDS = ['asks', 'whole', 'word'];

/** "dont want you to stop the messages", "বন্ধ চাই না": a refusal whose own verb is the end of the texts. */
function isTurned(phrases: readonly (readonly string[])[], { verbsLast }: Lexicon): boolean {
  const said = phrases.flatMap((lists) => {
    if (lists.includes('refuses')) return ['refuses'];
    if (lists.some((list) => ENDS.includes(list))) return ['ends'];
    return lists.includes('about') ? ['about'] : [];
  });
  const [before, behind] = verbsLast ? ['ends', 'refuses'] : ['refuses', 'ends'];
  return said.some((one, at) => one === before && said[at + 1] === behind);
}

/** Whether the text is a plain request for no more texts, and nothing else: "please dont send me any more of these messages". */
export function asksForNoTexts(nodes: readonly Node[], lexicon: Lexicon): boolean {
  const clauses = clausesOf(nodes).map((clause) => phrasesIn(wordsIn(clause), lexicon));
  const phrases = clauses.flatMap((clause) => clause ?? []);
  if (clauses.some((clause) => clause === null || isTurned(clause, lexicon))) return false;
  const lists = new Set(phrases.flat());
  if (lists.has('word') && phrases.every((one) => one.includes('word') || one.includes('lone'))) return true;
  const ends = lists.has('asks') || lists.has('refuses');
  const asks = lists.has('whole') || (ends && lists.has('about'));
  return asks && (lists.has('polite') || !nodes.some(({ mark }) => mark === '?'));
}

/** Whether a word changes nothing of the lone word beside it: "stop NOW". */
export const isBesideLone = (node: Node, lexicon: Lexicon): boolean =>
  phrasesIn(wordsIn([node]), lexicon)?.every((lists) => lists.includes('lone')) ?? false;

/** Who texts: written with capitals, or in letters that have none, and no word of ours. */
const isName = (word: string, { words, spellings }: Lexicon) =>
  /^(?!\p{Ll})[\p{L}\p{M}']+$/u.test(word) && !words.has(foldWord(word)) && !spellings.has(foldWord(word));

/** The message without a name behind it, on a line of its own or after a dash; a slip from a word of ours is a name here. */
export function withoutName(nodes: readonly Node[], lexicon: Lexicon): readonly Node[] {
  const at = nodes.findIndex(({ mark }) => mark === '\n' || mark === '-');
  if (at < 1) return nodes;
  const behind = nodes.slice(at + 1).filter(({ mark }) => mark === undefined);
  const words = behind.flatMap(({ raw }) => raw.split(' '));
  const isSigned =
    senseOf(behind[0], 'signature') !== undefined ||
    (words.length <= LONGEST_NAME && words.every((word) => isName(word, lexicon)));
  return isSigned ? nodes.slice(0, at) : nodes;
}
