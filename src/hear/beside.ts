/** What stands beside a verb: words that may be passed over, and strangers that make it doubtful. */
import { verbSense } from './head.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node } from './sense.ts';

const MANY_STRANGE = 3;

/** "le": an article that also leads up to days. */
export const isDayArticle = (node: Node): boolean => means(node, 'date', 'numbered');

/** True for a word that may be passed over on the way to a neighbour. */
export const isSlight = (node: Node | undefined): boolean =>
  node !== undefined &&
  !node.strange &&
  node.mark === undefined &&
  node.senses.length > 0 &&
  node.senses.every(
    (s) =>
      s.role === 'filler' ||
      s.role === 'article' ||
      s.role === 'lossPart' ||
      s.role === 'ended' ||
      (s.role === 'date' && (s.value === 'one' || isDayArticle(node))) ||
      (s.role === 'mark' && (s.value === 'perfect' || s.value === 'self' || s.value === 'asker')),
  );

/** The next word that weighs, after (1) or before (-1). */
export function neighbour(nodes: readonly Node[], at: number, step: 1 | -1): Node | undefined {
  let i = at + step;
  while (isSlight(nodes[i])) i += step;
  return nodes[i];
}

/** True for a word in no list, unless it is too short to be one. */
export const isStrange = (node: Node | undefined) => node?.strange === true && node.raw.length > 2;

/** A doer that is none of ours, right before the verb: a short stranger, or a unit that counts nothing ("bram" read as gram). */
function isDoerBefore(nodes: readonly Node[], at: number): boolean {
  const node = nodes[at - 1];
  if (node === undefined || node.mark !== undefined) return false;
  if (node.strange) return node.raw.length > 1;
  const isUnit =
    node.senses.length > 0 && node.senses.every((s) => s.role === 'unit' || s.role === 'measure');
  return isUnit && nodes[at - 2]?.value === undefined;
}

/** Whether an unknown doer or thing makes the clause doubtful. */
export function strangeAt(nodes: readonly Node[], at: number, lexicon: Lexicon): boolean {
  const verb = verbSense(nodes[at]!)?.value;
  const doneByOthers = lexicon.meanings.some((meaning) => meaning.trouble && meaning.verb === verb);
  const strange = nodes.flatMap((node, i) =>
    isStrange(node) && (doneByOthers || !along(nodes, i)) ? [i] : [],
  );
  let next = at + 1;
  const leadsOn = (node: Node | undefined) =>
    isSlight(node) || means(node, 'mark', 'towards') || means(node, 'date', 'of');
  while (leadsOn(nodes[next])) next++;
  if (strange.length >= MANY_STRANGE || isStrange(nodes[next])) return true;
  if (isDoerBefore(nodes, at) && verbSense(nodes[at]!)?.form === 'done') return true;
  return strange.some((i) => i < at || (doneByOthers && along(nodes, i)));
}

/** Words between "with" and the last of the company. */
const MOST_COMPANY = 8;

/** "with my brother", "by tractor": company and tools do no harm. */
export function along(nodes: readonly Node[], at: number): boolean {
  const isCompany = (node: Node | undefined) =>
    isSlight(node) || means(node, 'mark', 'others') || isStrange(node);
  let i = at - 1;
  while (i >= at - MOST_COMPANY && isCompany(nodes[i])) i--;
  return means(nodes[i], 'mark', 'along');
}

/** "ploughed 3 krakas": a bare number before an unknown word may count it. */
export function countsStrangers(nodes: readonly Node[]): boolean {
  return nodes.some(
    (node, i) =>
      node.plots?.named === false && isStrange(nodes[i + (means(nodes[i + 1], 'date', 'of') ? 2 : 1)]),
  );
}

/** "ploughed with laughter": company not known, and nothing of ours beside the verb. */
export function onlyCompany(nodes: readonly Node[], at: number): boolean {
  const ours = (node: Node) =>
    node.plots !== undefined ||
    node.said !== undefined ||
    node.measures !== undefined ||
    means(node, 'mark', 'self');
  return (
    verbSense(nodes[at]!)?.form === 'done' &&
    nodes.some((node, i) => isStrange(node) && along(nodes, i)) &&
    !nodes.some(ours)
  );
}
