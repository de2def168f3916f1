/** The figures of a text about rain: amounts with their unit, and plots told apart from them. */
import { groupPlots } from './group-plots.ts';
import { partPlots } from './rain-plots.ts';
import type { RainUnit } from './reading.ts';
import { type Node, senseOf } from './sense.ts';

export interface RainFigures {
  readonly values: readonly number[];
  readonly unit: RainUnit | null;
  readonly plots: readonly string[];
}

const UNITS: readonly string[] = ['mm', 'cm', 'inch'] satisfies readonly RainUnit[];

const isNumber = (node: Node | undefined): node is Node & { value: number } =>
  node?.value !== undefined && senseOf(node, 'number') !== undefined;
const unitOf = (node: Node | undefined) => senseOf(node, 'unit')?.value;
const isRainUnit = (node: Node | undefined) => UNITS.includes(unitOf(node) ?? '');

/** A number that is surely an amount: one with a unit, or listed before one ("12, 5 mm"). */
function isAmount(nodes: readonly Node[], at: number): boolean {
  if (!isNumber(nodes[at]) || senseOf(nodes[at - 1], 'plot')) return false;
  if (isRainUnit(nodes[at + 1])) return true;
  const separated = nodes[at + 1]?.mark === ',' || senseOf(nodes[at + 1], 'join') !== undefined;
  return separated && isAmount(nodes, at + 2) && senseOf(nodes[at - 1], 'rain') !== undefined;
}

/** Numbers that count something else ("2 hours") with what they count. */
const isCount = (nodes: readonly Node[], at: number) =>
  isNumber(nodes[at]) && unitOf(nodes[at + 1]) !== undefined && !isRainUnit(nodes[at + 1]);

interface Sorted {
  readonly amounts: readonly number[];
  readonly units: readonly string[];
  /** All but the amounts; a mark stands for each, so that no list of plots runs across it. */
  readonly others: readonly Node[];
}

function sort(nodes: readonly Node[]): Sorted {
  const amounts: number[] = [];
  const units: string[] = [];
  const others: Node[] = [];
  for (let at = 0; at < nodes.length; at++) {
    const node = nodes[at]!;
    if (isAmount(nodes, at)) {
      amounts.push(Math.abs(node.value!));
      others.push({ senses: [], from: node.from, to: node.to, raw: ';', glued: false, mark: ';' });
    } else if (isRainUnit(node)) units.push(unitOf(node)!);
    else if (isCount(nodes, at)) at += 1;
    else others.push(node);
  }
  return { amounts, units, others };
}

/**
 * The amounts, their one unit and the plots; null when a number could be either. "18 plot 2" is 18 on plot 2; "2 18mm"
 * could be plot 2, or 2 and 18 mm.
 */
export function rainFigures(nodes: readonly Node[]): RainFigures | null {
  const { amounts, units, others: all } = sort(nodes);
  const others = partPlots(all, amounts.length > 0);
  if (others === null) return null;
  const named = groupPlots(others).filter((node) => node.plots?.named);
  const inPlots = (one: Node) => named.some((node) => one.from >= node.from && one.to <= node.to);
  if (others.some((node) => node.label !== undefined && !inPlots(node))) return null;
  const loose = others.filter(isNumber).filter((node) => !inPlots(node));
  const [unit, second] = new Set(units);
  if (second !== undefined || named.length > 1 || named.some((node) => node.plots?.puzzle)) return null;
  if (amounts.length > 0 && loose.length > 0) return null;
  const values = amounts.length > 0 ? amounts : loose.map((node) => Math.abs(node.value));
  return { values, unit: (unit as RainUnit | undefined) ?? null, plots: named[0]?.plots?.ids ?? [] };
}
