/** Plain requests to be left alone, told by words that all belong to one: any other word makes a text something else. */
import { foldWord } from './fold.ts';
import type { Lexicon } from './lexicon.ts';
import type { Branch } from './phrase-tree.ts';
import type { Reading } from './reading.ts';
import { recognise } from './recognise.ts';
import { type Node, senseOf } from './sense.ts';

/** Words of a name behind each mark. */
const LONGEST_NAME: Readonly<Record<string, number>> = { '\n': 3, '-': 3, ',': 2 };

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

/** The phrases of each clause, all of which stand in these lists; null when a word stands in none. */
function requested(
  nodes: readonly Node[],
  lexicon: Lexicon,
): readonly (readonly (readonly string[])[])[] | null {
  const clauses = clausesOf(nodes).map((clause) => phrasesIn(wordsIn(clause), lexicon));
  const known = clauses.filter((clause) => clause !== null);
  return known.length === clauses.length ? known : null;
}

/** Whether the text is a plain request for no more texts, and nothing else: "please dont send me any more of these messages". */
export function asksForNoTexts(nodes: readonly Node[], lexicon: Lexicon): boolean {
  const clauses = requested(nodes, lexicon);
  if (!clauses || clauses.some((clause) => isTurned(clause, lexicon))) return false;
  const phrases = clauses.flat();
  const lists = new Set(phrases.flat());
  if (lists.has('word') && phrases.every((one) => one.includes('word') || one.includes('lone'))) return true;
  if (lists.has('how')) return false;
  if (phrases.length === 1 && lists.has('alone')) return true;
  const ends = lists.has('asks') || lists.has('refuses');
  const asks = lists.has('whole') || (ends && lists.has('about'));
  return asks && (lists.has('polite') || !nodes.some(({ mark }) => mark === '?'));
}

/** "how do i stop these texts", "how to unsubscribe": the list of what can be texted says how. */
export function asksHowToStop(nodes: readonly Node[], lexicon: Lexicon): Reading | null {
  const lists = new Set(requested(nodes, lexicon)?.flat(2));
  const ends = ENDS.some((list) => lists.has(list));
  return lists.has('how') && ends ? { kind: 'ask', about: 'help', plots: [], assumed: [] } : null;
}

/** Whether a single word is as it is listed: other senses of it may have been forgiven a slip, the end of the texts never is. */
export function isAsListed({ raw }: Node, lexicon: Lexicon): boolean {
  if (raw.includes(' ')) return true;
  const found = writings(foldWord(raw), lexicon).map((word) => lexicon.phrases.next.get(word));
  return found.some((branch) => branch?.senses.some(({ role }) => role === 'account'));
}

/** Words that thank or wave, spelled as they stand in the list, and first of all one that may stand there anyway. */
function isThanks(words: readonly string[], lexicon: Lexicon): boolean {
  let branch: Branch | undefined = lexicon.phrases;
  for (const word of words) branch = branch?.next.get(word);
  const greets = branch?.senses.some(({ role }) => role === 'greeting') ?? false;
  return greets && (longest(words, 0, lexicon.optOut, lexicon)?.lists.includes('lone') ?? false);
}

/** Whether a word changes nothing of the lone word beside it ("stop NOW"): by its letters, never by what it is near to. */
export function isBesideLone(node: Node, lexicon: Lexicon): boolean {
  const words = wordsIn([node]);
  const phrases = phrasesIn(words, lexicon);
  return (phrases?.every((lists) => lists.includes('lone')) ?? false) || isThanks(words, lexicon);
}

/** Who texts: written with capitals, or in letters that have none, and no word of ours. */
const isName = (word: string, { words, spellings }: Lexicon) =>
  /^(?!\p{Ll})[\p{L}\p{M}']+$/u.test(word) && !words.has(foldWord(word)) && !spellings.has(foldWord(word));

/** Nothing but a first capital tells a name from a slip: "TRACTR" may be either. */
function isSlip(word: string, lexicon: Lexicon): boolean {
  if (/^\p{Lu}\p{M}*\p{Ll}/u.test(word)) return false;
  const meant = recognise(foldWord(word), lexicon);
  return meant !== null && !('words' in meant && meant.words.join() === foldWord(word));
}

/** Whether what stands behind a mark is who texts; behind a line or a dash a slip from a word of ours is a name too. */
function isSigned(mark: string, behind: readonly Node[], lexicon: Lexicon): boolean {
  const said = behind.filter((node) => node.mark === undefined);
  const names = senseOf(said[0], 'signature') && mark !== ',' ? said.slice(1) : said;
  const words = names.flatMap(({ raw }) => raw.split(' '));
  return (
    words.length <= (LONGEST_NAME[mark] ?? 0) &&
    words.every((word) => isName(word, lexicon) && !(mark === ',' && isSlip(word, lexicon)))
  );
}

/** A name with its signs and a word like "regards" is no longer: what stands further in front is not looked at. */
const LONGEST_SIGNATURE = 10;

/** The message without a name behind it, on a line of its own, or after a dash or a comma. */
export function withoutName(nodes: readonly Node[], lexicon: Lexicon): readonly Node[] {
  const at = nodes.findIndex(
    ({ mark }, i) =>
      i > 0 &&
      i >= nodes.length - LONGEST_SIGNATURE &&
      mark !== undefined &&
      mark in LONGEST_NAME &&
      isSigned(mark, nodes.slice(i + 1), lexicon),
  );
  return at < 0 ? nodes : nodes.slice(0, at);
}
