/** Picks one day for every point, at the aims where they can be had, so that all days fit together. */
import type { Day } from './day.ts';
import { BACKWARD, FAR, FORWARD, type Graph, graphOf, relax, type Tree } from './graph.ts';
import { type Aim, ORIGIN, type Point, type Solution, type Window } from './network.ts';
import { isReached } from './windows.ts';

/** Windows while days are being chosen. `early` holds distances to the origin: minus the earliest days. */
interface Board {
  readonly graph: Graph;
  readonly early: Tree;
  readonly late: Tree;
  readonly days: (Day | undefined)[];
}

/**
 * One day per point that meets every gap of the solution. Points are fixed in the order of the aims, each as
 * near to its aim as the choices before it allow, then the others at their earliest. The first aim of a point
 * counts; an aim measured from a point not yet fixed takes that point's earliest day.
 */
export function schedule(solution: Solution, points: number, aims: readonly Aim[]): readonly Day[] {
  const board = setUp(solution, points);
  fix(board, ORIGIN, 0);
  for (const aim of aims) {
    if (board.days[aim.point] === undefined) fix(board, aim.point, dayOf(board, aim.from) + aim.days);
  }
  return Array.from(
    { length: points },
    (_, point) => board.days[point] ?? fix(board, point, dayOf(board, point)),
  );
}

function setUp({ windows, gaps }: Solution, points: number): Board {
  const treeOf = (distance: (window: Window) => number) => ({
    distance: Float64Array.from(windows, distance),
    via: new Int32Array(points),
  });
  return {
    graph: graphOf(points, gaps),
    early: treeOf(({ earliest }) => (earliest === null ? FAR : 0 - earliest)),
    late: treeOf(({ latest }) => latest ?? FAR),
    days: Array.from({ length: points }, () => undefined),
  };
}

/** The day of a point as far as known: fixed, or the earliest, or the latest, or day 0 for want of both. */
function dayOf({ days, early, late }: Board, point: Point): Day {
  const fixed = days[point];
  if (fixed !== undefined) return fixed;
  if (isReached(early, point)) return 0 - early.distance[point]!;
  return isReached(late, point) ? late.distance[point]! : 0;
}

/** Fixes a point at the day of its window nearest to the one wanted, and tightens the other windows to match. */
function fix({ graph, early, late, days }: Board, point: Point, wanted: Day): Day {
  const notTooEarly = isReached(early, point) ? Math.max(wanted, 0 - early.distance[point]!) : wanted;
  const day = isReached(late, point) ? Math.min(notTooEarly, late.distance[point]!) : notTooEarly;
  days[point] = day;
  tighten(graph, early, point, 0 - day, BACKWARD);
  tighten(graph, late, point, day, FORWARD);
  return day;
}

function tighten(graph: Graph, tree: Tree, point: Point, distance: number, direction: 0 | 1): void {
  if (tree.distance[point] === distance) return;
  tree.distance[point] = distance;
  relax(graph, tree, point, direction);
}
