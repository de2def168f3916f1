/** Reads a text as an answer to a question for a figure, a tool or a language: what joining asks. */

import { joinMixed } from './decimals.ts';
import { depthRow, isBesideDepth } from './depth-row.ts';
import type { Details } from './details.ts';
import { type Figure, figuresOf, round } from './figures.ts';
import { groupDates } from './group-dates.ts';
import { groupMeasures } from './group-measures.ts';
import { groupPlots } from './group-plots.ts';
import { nodesOf } from './hear.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, senseOf } from './sense.ts';
import { trim } from './trim.ts';
import { unitOf } from './unit-of.ts';

const LONGEST_TEXT = 640;

/** "half", when no number stands for it. */
function named<T extends string>(nodes: readonly Node[], role: 'tillage' | 'language'): T | null {
  const found = new Set(nodes.flatMap((node) => senseOf(node, role)?.value ?? []));
  const [only] = found;
  return found.size === 1 ? (only as T) : null;
}

const isSlight = (node: Node): boolean =>
  node.mark !== undefined ||
  (node.senses.length > 0 &&
    node.senses.every(
      (s) =>
        s.role === 'filler' ||
        s.role === 'article' ||
        s.role === 'join' ||
        s.role === 'greeting' ||
        s.value === 'please',
    ));

const isArea = (node: Node) => node.measures?.amount !== undefined && senseOf(node, 'stage') !== undefined;

/** The plots of a text that names plots and no more than their size. */
function onlyPlots(nodes: readonly Node[], lexicon: Lexicon): readonly string[] {
  const grouped = groupPlots(groupMeasures(groupDates(trim(nodes), lexicon), lexicon));
  const said = grouped.filter((node) => !isSlight(node) && !isArea(node));
  const [only] = said;
  return said.length === 1 && only?.plots && !only.plots.puzzle ? only.plots.ids : [];
}

/** One depth with nothing but small words beside it, or a row of figures alone. */
function onlyDepths(figures: readonly Figure[], nodes: readonly Node[], lexicon: Lexicon): readonly number[] {
  const row = depthRow(figures, nodes, lexicon);
  const isPart = (node: Node) =>
    node.value !== undefined || unitOf(node, lexicon)?.kind === 'length' || means(node, 'join', 'and');
  const alone = nodes.every(
    (node) => isPart(node) || node.mark === ',' || (figures.length === 1 && isBesideDepth(node)),
  );
  const figuresOnly = figures.every(
    ({ at }) => /\d/.test(nodes[at]?.raw ?? '') || Number.isInteger(nodes[at]?.value) || figures.length > 1,
  );
  return row === null || !alone || !figuresOnly ? [] : row;
}

/**
 * Every number, area, tool and language in a text. `hearDetails('0.4 ha and 1 acre, with hoes', english)` has the
 * numbers 0.4 and 1, the areas 0.4 and 0.4047 ha, and the hoe. A text too long to be an answer has none.
 */
export function hearDetails(text: string, lexicon: Lexicon): Details {
  const nodes = text.length > LONGEST_TEXT ? [] : nodesOf(text.trim(), lexicon).nodes;
  const whole = figuresOf(nodes, lexicon, true);
  const row = joinMixed(nodes, lexicon);
  return {
    numbers: whole.map((figure) => round(figure.value)),
    areasHa: whole.map(({ value, factor }) => (factor === null ? null : round(value * factor))),
    depthsCm: onlyDepths(row === nodes ? whole : figuresOf(row, lexicon, true), row, lexicon),
    tillage: named(nodes, 'tillage'),
    language: named(nodes, 'language'),
    plots: onlyPlots(nodes, lexicon),
  };
}
