/**
 * A network as a weighted graph, and shortest paths on it (Bellman-Ford with a queue). Every gap gives two
 * opposite edges, here called sides. It knows neither strengths nor rules.
 */
import type { Gap, Point } from './network.ts';

export interface Graph {
  readonly points: number;
  /** Side 2g says `to - from <= hi` of gap g, side 2g + 1 says `from - to <= -lo`; Infinity = no bound. */
  readonly weight: Float64Array;
  /** The point that a side leads to. Its partner, `side ^ 1`, leads back. */
  readonly head: Int32Array;
  /** The sides that leave point p are `out[first[p]]` up to, not including, `out[first[p + 1]]`. */
  readonly first: Int32Array;
  readonly out: Int32Array;
  /** Room to work in: points waiting, whether a point waits, and marks for the search of loops. */
  readonly queue: Int32Array;
  readonly queued: Uint8Array;
  readonly mark: Int32Array;
}

/** Distances to every point, and the side by which each was last reached (-1 = none). */
export interface Tree {
  readonly distance: Float64Array;
  readonly via: Int32Array;
}

/** Whether sides are followed as they point, or against it. */
export type Direction = 0 | 1;
export const FORWARD: Direction = 0;
export const BACKWARD: Direction = 1;

/** The distance of a point that no path has reached; a path may lower it a little, never to the half. */
export const FAR = 2 ** 51;

/** No bound counts for more days than this, so that sums stay exact and below FAR. */
const LONGEST = 2 ** 36;

const upperDays = (days: number) => (days > LONGEST ? Infinity : Math.max(Math.floor(days), -LONGEST));

/** Lays the gaps out as a graph. Days are whole, so a fraction in a bound is rounded to the tighter side. */
export function graphOf(points: number, gaps: readonly Gap[]): Graph {
  const weight = new Float64Array(gaps.length * 2);
  const head = new Int32Array(gaps.length * 2);
  for (let g = 0; g < gaps.length; g++) {
    const { from, to, lo, hi } = gaps[g]!;
    head[2 * g] = to;
    head[2 * g + 1] = from;
    weight[2 * g] = hi === null ? Infinity : upperDays(hi);
    weight[2 * g + 1] = lo === null ? Infinity : upperDays(0 - lo);
  }
  const room = {
    queue: new Int32Array(points),
    queued: new Uint8Array(points),
    mark: new Int32Array(points),
  };
  return { points, weight, head, ...sidesByTail(points, head), ...room };
}

/** Sorts the sides by the point that they leave (counting sort). */
function sidesByTail(points: number, head: Int32Array): { first: Int32Array; out: Int32Array } {
  const first = new Int32Array(points + 1);
  const out = new Int32Array(head.length);
  for (let side = 0; side < head.length; side++) first[head[side]! + 1]!++;
  for (let p = 0; p < points; p++) first[p + 1]! += first[p]!;
  for (let side = head.length - 1; side >= 0; side--) {
    const tail = head[side ^ 1]!;
    out[--first[tail + 1]!] = side;
  }
  // Each entry has come down to the start of its own stretch, one place to the right of where it belongs.
  for (let p = 0; p < points; p++) first[p] = first[p + 1]!;
  first[points] = head.length;
  return { first, out };
}

/** A tree that has reached nothing but its start. */
export function treeAt(points: number, start: Point): Tree {
  const distance = new Float64Array(points).fill(FAR);
  distance[start] = 0;
  return { distance, via: new Int32Array(points).fill(-1) };
}

/**
 * Lowers distances in place until no side shortens any, beginning at one point (or at all, for null).
 * False when there is no end to it, that is, when it meets a negative cycle; the distances then mean nothing.
 */
export function relax(graph: Graph, tree: Tree, seed: Point | null, direction: Direction): boolean {
  const { points, weight, head, first, out, queue, queued } = graph;
  const { distance, via } = tree;
  let start = 0;
  let waiting = fillQueue(graph, seed);
  let untilCheck = 2 * points;
  while (waiting > 0) {
    const point = queue[start]!;
    start = start + 1 === points ? 0 : start + 1;
    waiting--;
    queued[point] = 0;
    const reached = distance[point]!;
    const end = first[point + 1]!;
    for (let i = first[point]!; i < end; i++) {
      const next = head[out[i]!]!;
      const side = out[i]! ^ direction;
      const shorter = reached + weight[side]!;
      if (!(shorter < distance[next]!)) continue;
      distance[next] = shorter;
      via[next] = side;
      if (queued[next] === 1) continue;
      queued[next] = 1;
      queue[(start + waiting++) % points] = next;
    }
    if (--untilCheck > 0) continue;
    if (hasLoop(graph, tree, direction)) return false;
    untilCheck = points;
  }
  return true;
}

function fillQueue({ points, queue, queued }: Graph, seed: Point | null): number {
  queued.fill(seed === null ? 1 : 0);
  if (seed === null) {
    for (let p = 0; p < points; p++) queue[p] = p;
    return points;
  }
  queue[0] = seed;
  queued[seed] = 1;
  return 1;
}

/** The point from which a side was followed. */
export function before(graph: Graph, side: number, direction: Direction): Point {
  return graph.head[side ^ 1 ^ direction]!;
}

/** Whether the sides by which points were last reached run in a circle: so they do soon after a negative cycle. */
function hasLoop(graph: Graph, { via }: Tree, direction: Direction): boolean {
  const { points, mark } = graph;
  mark.fill(-1);
  for (let walk = 0; walk < points; walk++) {
    let point = walk;
    while (mark[point] === -1) {
      mark[point] = walk;
      if (via[point] === -1) break;
      point = before(graph, via[point]!, direction);
      if (mark[point] === walk) return true;
    }
  }
  return false;
}
