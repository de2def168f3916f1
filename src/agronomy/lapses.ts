/** Rules that the reports themselves have broken: recorded with their cost, never a refusal. */
import { startSpan } from './constraints.ts';
import { spreadCm } from './crop-days.ts';
import type { Fact } from './facts.ts';
import { type FramedRule, startOf, stepOf } from './frame.ts';
import type { Lapse } from './plot-plan.ts';
import { isPast, type Problem } from './problem.ts';
import { type Cost, figure } from './rulebook.ts';
import type { Report } from './season.ts';

const SHALLOW: Cost = { rank: 3, name: 'shallow', text: 'roots stay short and the crop starves' };
const DEEP: Cost = { rank: 3, name: 'deep', text: "fertiliser is buried out of the roots' reach" };
const UNEVEN: Cost = {
  rank: 3,
  name: 'uneven',
  text: 'high spots dry out and grow weeds, low spots drown seedlings',
};
const NO_COST: Cost = { rank: 0, name: 'none', text: 'no known cost' };

/** Lapses of days between past points, then of depths in the reports. */
export function lapsesOf(problem: Problem): readonly Lapse[] {
  const days = problem.frame.rules.flatMap((framed) => dayLapses(problem, framed));
  return [...days, ...problem.season.reports.flatMap((report) => depthLapses(problem, report))];
}

/** Judged at its best: where a day is known only as a span, the kindest day counts. */
function dayLapses(problem: Problem, framed: FramedRule): Lapse[] {
  if (!isPast(problem, framed.from) || !isPast(problem, framed.to)) return [];
  const from = spanOf(problem, framed.from);
  const to = spanOf(problem, framed.to);
  if (!from || !to) return [];
  const { rule, lo, hi } = framed;
  if (rule.whileOpen) return [];
  const longest = to[1] - from[0];
  const shortest = to[0] - from[1];
  if (lo !== null && longest < lo) {
    return [{ rule: rule.name, side: 'lo', byDays: lo - longest, cost: rule.costLo ?? NO_COST }];
  }
  if (hi !== null && shortest > hi) {
    return [{ rule: rule.name, side: 'hi', byDays: shortest - hi, cost: rule.costHi ?? NO_COST }];
  }
  return [];
}

function spanOf(problem: Problem, point: number): readonly [number, number] | null {
  const step = stepOf(point);
  const fact = problem.facts[step] as Fact;
  if (point === startOf(step)) return startSpan(problem.season, fact, problem.frame.days[step] ?? 1);
  return fact.on === null ? null : [fact.on, fact.on];
}

/** Lapses in one report's own measures: ploughing too shallow or too deep, a plot that is not level. */
export function depthLapses({ book }: Pick<Problem, 'book'>, report: Report): Lapse[] {
  const { depthCm, spotsCm } = report.measures ?? {};
  if (report.activity === 'plough' && depthCm !== undefined) {
    const [min, max] = [figure(book, 'plough-depth.min'), figure(book, 'plough-depth.max')];
    if (depthCm < min) return [{ rule: 'plough-depth', side: 'lo', byCm: depthCm - min, cost: SHALLOW }];
    if (depthCm > max) return [{ rule: 'plough-depth', side: 'hi', byCm: depthCm - max, cost: DEEP }];
  }
  if (report.activity === 'level' && spotsCm && spotsCm.length > 1) {
    const range = spreadCm(spotsCm);
    const over = range - figure(book, 'level-range.max');
    if (over > 0) return [{ rule: 'level-range', side: 'hi', byCm: over, cost: UNEVEN }];
  }
  return [];
}
