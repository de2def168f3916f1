/**
 * Sets a word for plot before the numbers of plots, as all later readers expect it: for an article in its place ("la 3" is plot 3,
 * "les 1 et 2" are two plots, and "les 2" may be both of them), and, where verbs come last, for a word behind ("৩ নং জমি").
 */
import { neighbour } from './beside.ts';
import { countedRounds } from './counted-rounds.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, type Role, type Sense, senseOf } from './sense.ts';

const COUNTED: readonly Role[] = ['unit', 'percent', 'sharePart', 'monthName', 'ending'];

const NUMBER: readonly Sense[] = [{ role: 'number', value: 'number' }];

const isPlotWord = (node: Node | undefined) => means(node, 'plot', 'one') || means(node, 'plot', 'many');

/** A whole number, or a plot's label. */
function isItem(node: Node | undefined): node is Node {
  if (node?.label !== undefined) return true;
  return node?.value !== undefined && Number.isInteger(node.value) && senseOf(node, 'number') !== undefined;
}

/** A number or label that names a plot, and counts nothing that follows it. */
function isName(nodes: readonly Node[], at: number): boolean {
  const [node, next] = [nodes[at], nodes[at + 1]];
  if (!isItem(node)) return false;
  return node.label !== undefined || (!isPlotWord(next) && !COUNTED.some((role) => senseOf(next, role)));
}

/** Where the list of plots goes on behind a number; -1 when it ends. */
function nextName(nodes: readonly Node[], at: number): number {
  const joint = nodes[at + 1];
  const joins = joint?.mark === ',' || joint?.mark === '-' || senseOf(joint, 'join') !== undefined;
  const next = at + (joins ? 2 : 1);
  return isName(nodes, next) ? next : -1;
}

/** "les 12 et 13 mars" are days. */
function isOfMonth(nodes: readonly Node[], at: number): boolean {
  let i = at;
  while (nodes[i] && (nodes[i]!.value !== undefined || nodes[i]!.mark === ',' || senseOf(nodes[i], 'join')))
    i++;
  return senseOf(nodes[i], 'monthName') !== undefined;
}

/** What may stand behind "la 3e" where it is a plot: the work, its day, or nothing more. */
const BEHIND: readonly Role[] = ['act', 'verb', 'stage', 'offset', 'weekday'];

/** "la 3e" beside other words, with no noun of its own ("la 1ere pluie"); alone it answers a question. */
function isOrdinal(nodes: readonly Node[], at: number): boolean {
  const next = neighbour(nodes, at, 1);
  if (!senseOf(nodes[at], 'ordinal') || nodes.length < 3) return false;
  return next === undefined || next.mark !== undefined || BEHIND.some((role) => senseOf(next, role));
}

function meant(nodes: readonly Node[], at: number): 'one' | 'many' | 'other' | null {
  const several = means(nodes[at], 'plot', 'articles');
  if (!several && isOrdinal(nodes, at + 1)) return 'one';
  if (!isName(nodes, at + 1) || isOfMonth(nodes, at + 1)) return null;
  if (!several) return 'one';
  return nextName(nodes, at + 1) >= 0 ? 'many' : 'other';
}

const isArticle = (sense: Sense) => sense.role === 'plot' && /^articles?$/.test(sense.value);

/** The nodes with such an article as a word for plot before a plot's number, and as a mere article elsewhere. */
function articlesAsWords(nodes: readonly Node[]): readonly Node[] {
  if (!nodes.some((node) => node.senses.some(isArticle))) return nodes;
  return nodes.map((node, at) => {
    if (at > 0 && isOrdinal(nodes, at) && means(nodes[at - 1], 'plot', 'article'))
      return { ...node, senses: NUMBER };
    if (!node.senses.some(isArticle)) return node;
    const value = meant(nodes, at);
    return value === null
      ? { ...node, senses: node.senses.filter((sense) => !isArticle(sense)) }
      : { ...node, senses: [{ role: 'plot', value }] };
  });
}

const isJoint = (node: Node | undefined) =>
  means(node, 'join', 'and') || means(node, 'join', 'to') || ',&+/-'.includes(node?.mark ?? 'none');

/** Past "no." behind a number, with the endings written apart and the word for plot after it; `at` where there is none. */
function pastName(nodes: readonly Node[], at: number): number {
  if (!means(nodes[at], 'plot', 'number')) return at;
  let i = at + 1;
  while (senseOf(nodes[i], 'article') && !isPlotWord(nodes[i])) i++;
  return isPlotWord(nodes[i]) ? i + 1 : i;
}

interface Run {
  /** Where the numbers end, named or not: none of them has a word behind it when the run has none. */
  readonly end: number;
  readonly found: Named | null;
}

interface Named {
  /** The numbers and what joins them. */
  readonly list: readonly Node[];
  readonly word: 'one' | 'many' | 'number';
  readonly next: number;
}

/** "1/2" names two plots, "5.0" none. */
const isNamed = (node: Node | undefined): node is Node =>
  node?.parts?.length === 2 || (isItem(node) && !/\d\.\d/.test(node.raw));

/** A list of numbers with a word for plot behind the last of them; behind one number alone the mere word only counts ("2 জমি"). */
function runAt(nodes: readonly Node[], start: number): Run {
  let found: Named | null = null;
  const list: Node[] = [];
  let count = 0;
  let at = start;
  while (isNamed(nodes[at])) {
    const node = nodes[at]!;
    // "নয়" is nine and "is not"; before the word for plot it is nine.
    list.push(node.value === undefined ? node : { ...node, senses: NUMBER });
    count += node.parts ? 2 : 1;
    const lists = count > 1 && means(nodes[at + 1], 'plot', 'one') && !isItem(nodes[at + 2]);
    const next = lists ? at + 2 : pastName(nodes, at + 1);
    const word = count > 1 ? 'many' : isPlotWord(nodes[next - 1]) ? 'one' : 'number';
    if (next > at + 1) found = { list: [...list], word, next };
    let joined = next;
    while (isJoint(nodes[joined])) list.push(nodes[joined++]!);
    if (joined === at + 1) return { found, end: joined };
    at = joined;
  }
  return { found, end: Math.max(at, start + 1) };
}

/** The nodes with "৩ নং জমি" as "জমি ৩"; without a word behind, a number stays what it is. */
function wordsFirst(nodes: readonly Node[]): readonly Node[] {
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; ) {
    const named = isPlotWord(nodes[at - 1]) || means(nodes[at - 1], 'plot', 'number');
    const { found: run, end } = named ? { found: null, end: at + 1 } : runAt(nodes, at);
    if (!run) {
      out.push(...nodes.slice(at, end));
      at = end;
      continue;
    }
    const [first, last] = [nodes[at]!, nodes[run.next - 1]!];
    const span = { from: first.from, to: last.to };
    out.push({ ...last, ...span, glued: first.glued, senses: [{ role: 'plot', value: run.word }] });
    out.push(...run.list.map((node, i) => ({ ...node, ...span, glued: i > 0 && node.glued })));
    at = run.next;
  }
  return out;
}

/** The nodes with a word for plot before every plot's number that has an article there or a word behind. */
export const plotWordsFirst = (nodes: readonly Node[], { verbsLast }: Lexicon): readonly Node[] =>
  verbsLast ? wordsFirst(countedRounds(articlesAsWords(nodes))) : articlesAsWords(nodes);
