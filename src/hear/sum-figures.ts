/** What the numbers in a request for a sum stand for: the plot, an area, depths, a part in a hundred, teams, manure; the rest is bare. */
import { KG_PER_TONNE } from '../agronomy/sums/units.ts';
import { joinMixed } from './decimals.ts';
import { depthRow, inTenths } from './depth-row.ts';
import { type Figure, figuresOf, round } from './figures.ts';
import { groupPlots } from './group-plots.ts';
import type { Lexicon } from './lexicon.ts';
import { OF_AREAS, type SumFigures, type SumName } from './reading.ts';
import { means, type Node, senseOf } from './sense.ts';
import { type UnitSaid, unitOf } from './unit-of.ts';

interface Place {
  readonly plots: readonly string[];
  /** What is left of the text without the words for plot and what follows them. */
  readonly rest: readonly Node[];
}

const isPlotWord = (node: Node | undefined) => means(node, 'plot', 'one') || means(node, 'plot', 'many');

/** "level 3: 12 10 15": what stands before a colon is the plot. */
function beforeColon(nodes: readonly Node[]): Place | null {
  const [, number, colon] = nodes;
  if (colon?.mark !== ':' || number?.value === undefined || !Number.isInteger(number.value)) return null;
  return { plots: [String(number.value)], rest: nodes.slice(3) };
}

/**
 * Plots are named behind the word for plot only: in "germ 82 of 100 plot 3" the 100 is none. Behind the word for one plot
 * stands one number, whatever follows it ("plot 3 12 15 9"), unless it is joined to others ("plot 2 and 3").
 */
function behindWord(nodes: readonly Node[], sum: SumName): Place {
  const at = nodes.findIndex(
    (node, i) => isPlotWord(node) || means(node, 'plot', 'all') || (node.label !== undefined && i > 0),
  );
  if (at < 0) return { plots: [], rest: nodes };
  const [group] = groupPlots(nodes.slice(at));
  if (!group?.plots?.named || group.plots.ids.length === 0 || isMeasured(nodes[firstOf(nodes, at) + 1]))
    return { plots: [], rest: nodes };
  const { ids, many, lastNamedAt } = group.plots;
  const listed = sum !== 'level' && isListed(nodes, firstOf(nodes, at));
  const all = many === true || lastNamedAt !== undefined || listed;
  const end = all ? nodes.findLastIndex(({ to }) => to <= group.to) : firstOf(nodes, at);
  return { plots: all ? ids : ids.slice(0, 1), rest: [...nodes.slice(0, at), ...nodes.slice(end + 1)] };
}

/** "plot 2 and 3", but not "plot 1 and 2 teams". */
const isListed = (nodes: readonly Node[], first: number): boolean =>
  means(nodes[first + 1], 'join', 'and') && !isMeasured(nodes[first + 3]);

/** "in the plot 5 cm of water". */
const isMeasured = (node: Node | undefined) =>
  isPercent(node) || (senseOf(node, 'unit') !== undefined && senseOf(node, 'number') === undefined);

/** Where the first number or label behind a word for plot stands; the word itself where none does. */
function firstOf(nodes: readonly Node[], at: number): number {
  const ahead = nodes.slice(at).findIndex((node) => node.value !== undefined || node.label !== undefined);
  return ahead < 0 ? at : at + ahead;
}

const isPercent = (node: Node | undefined) => senseOf(node, 'percent') !== undefined;

type Kind = 'area' | 'percent' | 'length' | 'teams' | 'manure' | 'other' | 'unknown' | 'bare';

interface Sorted {
  readonly kind: Kind;
  readonly value: number;
  /** In lengths, cm in one of the unit. */
  readonly factor: number;
}

function sorted(figure: Figure, nodes: readonly Node[], lexicon: Lexicon, sum: SumName): Sorted {
  const { value, factor, at, next } = figure;
  const plain = { kind: 'bare', value, factor: 1 } as const;
  if (factor !== null) return { kind: 'area', value: round(value * factor), factor };
  if (isPercent(nodes[next]) || isPercent(nodes[at - 1])) return { ...plain, kind: 'percent' };
  const unit =
    unitOf(nodes[next], lexicon, 'amount') ?? (sum === 'work' ? leading(nodes, at, lexicon) : null);
  if (unit?.kind === 'length') return { kind: 'length', value, factor: unit.factor };
  if (sum === 'work' && (unit?.kind === 'count' || isHands(nodes[next]))) return { ...plain, kind: 'teams' };
  if (unit) return counted(plain, unit, nodes, sum);
  return OF_AREAS.includes(sum) && isUnknownUnit(nodes[next]) ? { ...plain, kind: 'unknown' } : plain;
}

/** A weight or a time: manure in tonnes, nutrients in kg as they are; of other sums no figure. */
function counted(plain: Sorted, unit: UnitSaid, nodes: readonly Node[], sum: SumName): Sorted {
  const tonnes = unit.kind === 'amount' ? tonnesIn(unit) : null;
  if (tonnes !== null && speaksOfManure(nodes))
    return { ...plain, kind: 'manure', value: plain.value * tonnes };
  if (sum === 'nutrients') return plain;
  return { ...plain, kind: unit.kind === 'amount' && OF_AREAS.includes(sum) ? 'unknown' : 'other' };
}

/** A word right behind a figure that no list knows: "40 guntas", "20 x 30". */
const isUnknownUnit = (node: Node | undefined): boolean =>
  node !== undefined && node.mark === undefined && node.value === undefined && node.strange === true;

/** "per acre", without a figure of its own: hectares in one of it. */
function perArea(nodes: readonly Node[], lexicon: Lexicon): number | null {
  const at = nodes.findIndex(
    (node, i) =>
      unitOf(node, lexicon)?.kind === 'area' && nodes[i - 1]?.value === undefined && !isPart(nodes[i - 1]),
  );
  return at < 0 ? null : (unitOf(nodes[at], lexicon)?.factor ?? null);
}

const isPart = (node: Node | undefined) => node?.parts !== undefined;

/** "teams 3": a count's word before its figure. */
function leading(nodes: readonly Node[], at: number, lexicon: Lexicon): UnitSaid | null {
  const unit = unitOf(nodes[at - 1], lexicon);
  return unit?.kind === 'count' ? unit : null;
}

const isHands = (node: Node | undefined) => means(node, 'mark', 'ours') || means(node, 'sum', 'work');

function tonnesIn({ name }: UnitSaid): number | null {
  if (name === 'ton') return 1;
  return name === 'kg' ? 1 / KG_PER_TONNE : null;
}

const speaksOfManure = (nodes: readonly Node[]) =>
  nodes.some((node) => means(node, 'thing', 'manure') || means(node, 'act', 'manure'));

const valuesOf = (all: readonly Sorted[], kind: Kind) =>
  all.filter((one) => one.kind === kind).map(({ value }) => value);

/** Sorts the numbers of a text that asks for a sum. In `level` all lengths and bare numbers are depths of water. */
export function sumFigures(nodes: readonly Node[], lexicon: Lexicon, sum: SumName): SumFigures {
  const level = sum === 'level';
  const { plots, rest: figured } = beforeColon(nodes) ?? behindWord(nodes, sum);
  const rest = level ? joinMixed(figured, lexicon) : figured;
  const figures = figuresOf(rest, lexicon, false);
  const all = figures.map((figure) => sorted(figure, rest, lexicon, sum));
  const [areas, percents, teams, manure] = (['area', 'percent', 'teams', 'manure'] as const).map((kind) =>
    valuesOf(all, kind),
  );
  const lengths = all.filter(({ kind }) => kind === 'length');
  const unknownUnit = unknownIn(figures, all, rest);
  const per = perArea(rest, lexicon);
  const month = rest.map((node) => senseOf(node, 'monthName')?.n).find((n) => n !== undefined);
  return {
    plots,
    bare: level ? [] : valuesOf(all, 'bare'),
    ...(level && rowOf(depthRow(figures, rest, lexicon))),
    ...(unknownUnit !== undefined && { unknownUnit }),
    ...(per !== null && sum === 'nutrients' && { perHa: per }),
    ...(!level && lengths.length > 0 && { depthsCm: lengths.map((one) => inTenths(one.value * one.factor)) }),
    ...(areas?.length && { areaHa: round(areas.reduce((sum, ha) => sum + ha, 0)) }),
    ...(percents?.[0] !== undefined && { percent: percents[0] }),
    ...(teams?.[0] !== undefined && { teams: teams[0] }),
    ...(manure?.[0] !== undefined && { manureT: manure[0] }),
    ...(month !== undefined && { month }),
  };
}

/** The word behind a figure whose unit is not known; undefined for none. */
function unknownIn(
  figures: readonly Figure[],
  all: readonly Sorted[],
  nodes: readonly Node[],
): string | undefined {
  const at = all.findIndex(({ kind }) => kind === 'unknown');
  return nodes[figures[at]?.next ?? -1]?.raw;
}

const rowOf = (depthsCm: readonly number[] | null) =>
  depthsCm === null ? { torn: true as const } : { depthsCm };
