/** Rain and water that do not cease: nothing is lacking then, and nothing left undone. */
import { foldWord } from './fold.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, senseOf } from './sense.ts';

/** How many words may stand between a word for ceasing and what denies it. */
const NEAR = 2;

const isWet = (node: Node) =>
  means(node, 'rain', 'names') || means(node, 'rain', 'fell') || senseOf(node, 'troubleThing') !== undefined;

/** Whether a word is one for ceasing, by its letters: a slip may have made another verb of it. */
export const isCeasing = (node: Node | undefined, { ceasing }: Lexicon): boolean =>
  node !== undefined && ceasing.has(foldWord(node.raw));

/** "the rain will not stop", "il pleut sans arrêt": where verbs come last the denial stands behind. */
export function goesOn(nodes: readonly Node[], lexicon: Lexicon): boolean {
  if (!nodes.some(isWet)) return false;
  const said = ` ${nodes
    .flatMap(({ raw }) => raw.split(' '))
    .map(foldWord)
    .join(' ')} `;
  if (lexicon.endless.some((phrase) => said.includes(` ${phrase} `))) return true;
  return nodes.some((node, at) => {
    if (!isCeasing(node, lexicon)) return false;
    const [from, to] = lexicon.verbsLast ? [at + 1, at + 1 + NEAR] : [Math.max(0, at - NEAR), at];
    return nodes.slice(from, to).some((one) => means(one, 'mark', 'not'));
  });
}
