/** The numbers of a text that is an answer or asks for a sum: whole, in parts, with a unit of area or without. */
import type { Lexicon } from './lexicon.ts';
import { type Node, senseOf } from './sense.ts';
import { unitOf } from './unit-of.ts';

export interface Figure {
  readonly value: number;
  /** Hectares in one of its unit of area; null without one. */
  readonly factor: number | null;
  /** Where it stands and what comes after it. */
  readonly at: number;
  readonly next: number;
}

/** Enough for an area in hectares. */
const FOUR_PLACES = 10_000;
export const round = (value: number) => Math.round(value * FOUR_PLACES) / FOUR_PLACES;

/** The size in hectares of the unit at `at`, past "an" and "of"; null when it is none of area. */
function unitHa(nodes: readonly Node[], at: number, lexicon: Lexicon): number | null {
  let i = at;
  while (nodes[i] && nodes[i]!.senses.some((s) => s.role === 'article') && !senseOf(nodes[i], 'unit')) i++;
  const unit = unitOf(nodes[i], lexicon);
  return unit?.kind === 'area' ? unit.factor : null;
}

/** "1/2": a part when a unit of area follows, or where bare parts are looked for; else two numbers. */
function fraction(nodes: readonly Node[], at: number, lexicon: Lexicon, bareParts: boolean): Figure[] {
  const [top = 0, bottom = 0, third] = nodes[at]!.parts!;
  const factor = unitHa(nodes, at + 1, lexicon);
  const half = third === undefined && bottom > 0;
  const value = top / bottom;
  if (half && (factor !== null || (bareParts && value < 1))) {
    return [{ value, factor, at, next: at + 1 }];
  }
  return nodes[at]!.parts!.map((part) => ({ value: part, factor: null, at, next: at + 1 }));
}

const isComma = (node: Node | undefined) => node?.mark === ',' && node.glued;

/** "0,4" where a comma marks decimals; "4,6,9" is a row. */
function decimal(
  nodes: readonly Node[],
  at: number,
  lexicon: Lexicon,
): { value: number; next: number } | null {
  const [whole, comma, part] = [nodes[at], nodes[at + 1], nodes[at + 2]];
  if (isComma(nodes[at - 1]) || isComma(nodes[at + 3])) return null;
  if (!lexicon.decimalComma || comma?.mark !== ',' || !comma.glued || !part?.glued || !/^\d+$/.test(part.raw))
    return null;
  return { value: Number(`${whole!.raw}.${part.raw}`), next: at + 3 };
}

function figuresAt(nodes: readonly Node[], at: number, lexicon: Lexicon, bareParts: boolean): Figure[] {
  const node = nodes[at]!;
  if (node.parts) return fraction(nodes, at, lexicon, bareParts);
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

/** Every number of a text in turn, with its unit of area where it has one. With `bareParts`, "1/2" alone is a half, "82/100" 0.82. */
export function figuresOf(nodes: readonly Node[], lexicon: Lexicon, bareParts: boolean): readonly Figure[] {
  const figures: Figure[] = [];
  for (let at = 0; at < nodes.length; ) {
    const found = figuresAt(nodes, at, lexicon, bareParts);
    figures.push(...found);
    at = found[0]?.next ?? at + 1;
  }
  return addHalves(figures, nodes);
}
