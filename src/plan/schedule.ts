/** Picks one day for every point, at the aims where they can be had, so that all days fit together. */
import type { Day } from './day.ts';
import { BACKWARD, FAR, FORWARD, type Graph, graphOf, relax, type Tree } from './graph.ts';
import { type Aim, type Fits, ORIGIN, type Point, type Solution, type Window, wished } from './network.ts';
import { isReached } from './windows.ts';

/** Windows while days are being chosen. `early` holds distances to the origin: minus the earliest days. */
interface Board {
  readonly graph: Graph;
  readonly early: Tree;
  readonly late: Tree;
  readonly days: (Day | undefined)[];
  readonly fits: Fits | undefined;
}

/** A day that fits is looked for no further away than this. */
const FAR_ENOUGH_DAYS = 60;

/**
 * One day per point that meets every gap of the solution. Points are fixed in the order of the aims, each as
 * near to its aim as the choices before it allow, then the others at their earliest. The first aim of a point
 * counts; an aim measured from a point not yet fixed takes that point's earliest day. Where a day does not fit, the
 * next one in the window is taken, or else the one before.
 */
export function schedule(
  solution: Solution,
  points: number,
  aims: readonly Aim[],
  fits?: Fits,
): readonly Day[] {
  const board = setUp(solution, points, fits);
  fix(board, ORIGIN, 0);
  for (const aim of aims) {
    if (board.days[aim.point] === undefined) fix(board, aim.point, wished(aim, dayOf(board, aim.from)));
  }
  return Array.from(
    { length: points },
    (_, point) => board.days[point] ?? fix(board, point, dayOf(board, point)),
  );
}

function setUp({ windows, gaps }: Solution, points: number, fits: Fits | undefined): Board {
  const treeOf = (distance: (window: Window) => number) => ({
    distance: Float64Array.from(windows, distance),
    via: new Int32Array(points),
  });
  return {
    graph: graphOf(points, gaps),
    early: treeOf(({ earliest }) => (earliest === null ? FAR : 0 - earliest)),
    late: treeOf(({ latest }) => latest ?? FAR),
    days: Array.from({ length: points }, () => undefined),
    fits,
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
function fix(board: Board, point: Point, wanted: Day): Day {
  const { graph, early, late, days } = board;
  const day = fitting(board, point, wanted);
  days[point] = day;
  tighten(graph, early, point, 0 - day, BACKWARD);
  tighten(graph, late, point, day, FORWARD);
  return day;
}

function fitting({ early, late, fits }: Board, point: Point, wanted: Day): Day {
  const earliest = isReached(early, point) ? 0 - early.distance[point]! : -Infinity;
  const latest = isReached(late, point) ? late.distance[point]! : Infinity;
  const nearest = Math.min(Math.max(wanted, earliest), latest);
  if (!fits) return nearest;
  for (const step of [1, -1]) {
    for (let away = 0; away <= FAR_ENOUGH_DAYS; away++) {
      const day = nearest + step * away;
      if (day < earliest || day > latest) break;
      if (fits(point, day)) return day;
    }
  }
  return nearest;
}

function tighten(graph: Graph, tree: Tree, point: Point, distance: number, direction: 0 | 1): void {
  if (tree.distance[point] === distance) return;
  tree.distance[point] = distance;
  relax(graph, tree, point, direction);
}
