/** A row of depths of water: figures one behind the other, each with its unit, or one unit for all, and no word between them. */
import type { Figure } from './figures.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, senseOf } from './sense.ts';
import { type UnitSaid, unitOf } from './unit-of.ts';

const TENTH = 10;
export const inTenths = (value: number) => Math.round(value * TENTH) / TENTH;

/** Depths in cm; null where something among them is no depth: a word, another unit, a day, commas between some only. */
export function depthRow(
  figures: readonly Figure[],
  nodes: readonly Node[],
  lexicon: Lexicon,
): readonly number[] | null {
  const units = figures.map(({ next }) => unitOf(nodes[next], lexicon));
  if (figures.some(({ factor }) => factor !== null)) return null;
  if (units.some((unit) => unit !== null && unit.kind !== 'length')) return null;
  const between = figures
    .slice(1)
    .map((figure, i) => gapBetween(figures[i] as Figure, figure, nodes, units[i]));
  if (between.includes('torn') || new Set(between.slice(0, -1)).size > 1) return null;
  const factor = oneFactor(units);
  return figures.map(({ value }, i) => inTenths(value * (units[i]?.factor ?? factor)));
}

/** What stands between two depths: nothing, a comma; "and" before the last counts as what came before it. */
function gapBetween(
  figure: Figure,
  next: Figure,
  nodes: readonly Node[],
  unit: UnitSaid | null | undefined,
): 'space' | 'comma' | 'torn' {
  const gap = nodes.slice(figure.next + (unit ? 1 : 0), next.at);
  if (gap.some((node) => !isSeparator(node))) return 'torn';
  return gap.some((node) => node.mark === ',') ? 'comma' : 'space';
}

const isSeparator = (node: Node): boolean =>
  (node.mark !== undefined && [',', ';', '/', '\n'].includes(node.mark)) || means(node, 'join', 'and');

/** One unit before or behind a row holds for all of it; without any they are cm. */
function oneFactor(units: readonly (UnitSaid | null)[]): number {
  const said = units.filter((unit) => unit !== null);
  const [only] = said;
  return said.length === 1 && only ? only.factor : 1;
}

/** Words beside a depth that change nothing: "about 6 cm deep". */
export const isBesideDepth = (node: Node): boolean =>
  node.mark !== undefined
    ? [',', '.', ';', '!', '\n'].includes(node.mark)
    : node.senses.length > 0 &&
      (senseOf(node, 'filler') !== undefined ||
        senseOf(node, 'article') !== undefined ||
        senseOf(node, 'greeting') !== undefined ||
        means(node, 'measure', 'deep') ||
        means(node, 'date', 'vague'));
