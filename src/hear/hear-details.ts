/** Reads a text as an answer to a question for a figure, a tool or a language: what joining asks. */
import type { Details } from './details.ts';
import { groupDates } from './group-dates.ts';
import { groupMeasures } from './group-measures.ts';
import { groupPlots } from './group-plots.ts';
import { nodesOf } from './hear.ts';
import type { Lexicon } from './lexicon.ts';
import { type Node, senseOf } from './sense.ts';
import { trim } from './trim.ts';
import { unitOf } from './unit-of.ts';

interface Figure {
  readonly value: number;
  /** Hectares in one of its unit of area; null without one. */
  readonly factor: number | null;
  /** Where it stands and what comes after it. */
  readonly at: number;
  readonly next: number;
}

const FOUR_PLACES = 10_000;
const LONGEST_TEXT = 640;
const round = (value: number) => Math.round(value * FOUR_PLACES) / FOUR_PLACES;

/** The size in hectares of the unit at `at`, past "an" and "of"; null when it is none of area. */
function unitHa(nodes: readonly Node[], at: number, lexicon: Lexicon): number | null {
  let i = at;
  while (nodes[i] && nodes[i]!.senses.some((s) => s.role === 'article') && !senseOf(nodes[i], 'unit')) i++;
  const unit = unitOf(nodes[i], lexicon);
  return unit?.kind === 'area' ? unit.factor : null;
}

/** "1/2": a fraction when a unit of area follows, else two numbers. */
function fraction(nodes: readonly Node[], at: number, lexicon: Lexicon): Figure[] {
  const [top = 0, bottom = 0, third] = nodes[at]!.parts!;
  const factor = unitHa(nodes, at + 1, lexicon);
  const half = third === undefined && bottom > 0;
  const value = top / bottom;
  if (half && (factor !== null || value < 1)) {
    return [{ value, factor, at, next: at + 1 }];
  }
  return nodes[at]!.parts!.map((part) => ({ value: part, factor: null, at, next: at + 1 }));
}

/** "0,4" where a comma marks decimals. */
function decimal(
  nodes: readonly Node[],
  at: number,
  lexicon: Lexicon,
): { value: number; next: number } | null {
  const [whole, comma, part] = [nodes[at], nodes[at + 1], nodes[at + 2]];
  if (!lexicon.decimalComma || comma?.mark !== ',' || !comma.glued || !part?.glued || !/^\d+$/.test(part.raw))
    return null;
  return { value: Number(`${whole!.raw}.${part.raw}`), next: at + 3 };
}

function figuresAt(nodes: readonly Node[], at: number, lexicon: Lexicon): Figure[] {
  const node = nodes[at]!;
  if (node.parts) return fraction(nodes, at, lexicon);
  if (node.value === undefined) return [];
  const { value, next } = decimal(nodes, at, lexicon) ?? { value: node.value, next: at + 1 };
  const factor = unitHa(nodes, next, lexicon);
  return [{ value, factor, at, next }];
}

/** "1 and half acre": a half in words that follows a whole number belongs to it. */
function addHalves(figures: readonly Figure[], nodes: readonly Node[]): Figure[] {
  const out: Figure[] = [];
  for (const figure of figures) {
    const before = out.at(-1);
    const between = before ? nodes.slice(before.next, figure.at) : [];
    const joined =
      between.length > 0 && between.every((node) => senseOf(node, 'join') ?? senseOf(node, 'article'));
    const isPart = figure.value < 1 && !/\d/.test(nodes[figure.at]!.raw);
    if (!before || !joined || !isPart || !Number.isInteger(before.value) || before.factor !== null)
      out.push(figure);
    else out[out.length - 1] = { ...figure, value: before.value + figure.value };
  }
  return out;
}

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

/**
 * Every number, area, tool and language in a text. `hearDetails('0.4 ha and 1 acre, with hoes', english)` has the
 * numbers 0.4 and 1, the areas 0.4 and 0.4047 ha, and the hoe. A text too long to be an answer has none.
 */
export function hearDetails(text: string, lexicon: Lexicon): Details {
  const nodes = text.length > LONGEST_TEXT ? [] : nodesOf(text.trim(), lexicon).nodes;
  const figures: Figure[] = [];
  for (let at = 0; at < nodes.length; ) {
    const found = figuresAt(nodes, at, lexicon);
    figures.push(...found);
    at = found[0]?.next ?? at + 1;
  }
  const whole = addHalves(figures, nodes);
  return {
    numbers: whole.map((figure) => round(figure.value)),
    areasHa: whole.map(({ value, factor }) => (factor === null ? null : round(value * factor))),
    tillage: named(nodes, 'tillage'),
    language: named(nodes, 'language'),
    plots: onlyPlots(nodes, lexicon),
  };
}
