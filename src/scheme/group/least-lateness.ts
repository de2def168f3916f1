/**
 * Work that one team does piece after piece, each with a time before which it cannot begin and one by which it should be done:
 * the order in which the latest is least late. It is Carlier's branch and bound (1982, European Journal of Operational
 * Research 11:42, from memory) over schedules by Jackson's rule: of the work that can begin, that which is due first.
 */

/** Times in any unit, whole or not. */
export interface Piece {
  readonly release: number;
  readonly due: number;
  readonly takes: number;
}

export interface LeastLate {
  /** Places in the list of pieces, first to last. */
  readonly order: readonly number[];
  readonly starts: readonly number[];
  /** How late the latest is; below 0 when all are early. */
  readonly lateness: number;
  /** No order can have less. */
  readonly bound: number;
}

/** Pieces in a node of the search: what is left after the due time stands in its place, so that both ends are alike. */
interface Node {
  readonly heads: readonly number[];
  readonly tails: readonly number[];
  readonly bound: number;
}

interface Schedule {
  readonly order: readonly number[];
  readonly starts: readonly number[];
  /** The largest end with its tail, and the place in the order of the last piece that has it. */
  readonly most: number;
  readonly last: number;
}

/** Far more than schedules of a scheme's size come to. */
const MOST_NODES = 5000;
const NOTHING = 1e-9;

/** The best order; `bound` is below `lateness` only where the search was given up, after some thousands of schedules. */
export function leastLateness(pieces: readonly Piece[]): LeastLate {
  if (pieces.length === 0) return { order: [], starts: [], lateness: 0, bound: 0 };
  const latest = Math.max(...pieces.map(({ due }) => due));
  const takes = pieces.map((piece) => piece.takes);
  const heads = pieces.map(({ release }) => release);
  const tails = pieces.map(({ due }) => latest - due);
  const root: Node = { heads, tails, bound: mostPreempted(heads, tails, takes) };
  const { best, bound } = search(root, takes);
  return { order: best.order, starts: best.starts, lateness: best.most - latest, bound: bound - latest };
}

function search(root: Node, takes: readonly number[]): { best: Schedule; bound: number } {
  let best = byJackson(root, takes);
  let open: Node[] = [root];
  for (let tried = 0; open.length > 0 && tried < MOST_NODES; tried++) {
    const node = open.reduce((least, one) => (one.bound < least.bound ? one : least));
    if (node.bound >= best.most - NOTHING) return { best, bound: best.most };
    open = open.filter((one) => one !== node);
    const schedule = byJackson(node, takes);
    if (schedule.most < best.most) best = realOf(schedule, root, takes);
    open.push(...branches(node, schedule, takes).filter(({ bound }) => bound < best.most - NOTHING));
  }
  return { best, bound: open.length === 0 ? best.most : Math.min(...open.map(({ bound }) => bound)) };
}

/** The same order with the heads and tails that the pieces have: it is never later. */
function realOf({ order }: Schedule, { heads, tails }: Node, takes: readonly number[]): Schedule {
  let at = Number.NEGATIVE_INFINITY;
  let [most, last] = [Number.NEGATIVE_INFINITY, 0];
  const starts = order.map((piece, place) => {
    const start = Math.max(at, heads[piece] ?? 0);
    at = start + (takes[piece] ?? 0);
    const end = at + (tails[piece] ?? 0);
    if (end >= most) [most, last] = [end, place];
    return start;
  });
  return { order, starts, most, last };
}

/** Schrage's schedule: whenever the team is free, of the pieces that can begin the one with the longest tail. */
function byJackson(node: Node, takes: readonly number[]): Schedule {
  const left = new Set(takes.keys());
  const order: number[] = [];
  let at = Number.NEGATIVE_INFINITY;
  while (left.size > 0) {
    const soonest = Math.min(...[...left].map((piece) => node.heads[piece] ?? 0));
    at = Math.max(at, soonest);
    const next = [...left]
      .filter((piece) => (node.heads[piece] ?? 0) <= at + NOTHING)
      .reduce((a, b) => ((node.tails[b] ?? 0) > (node.tails[a] ?? 0) ? b : a));
    left.delete(next);
    order.push(next);
    at += takes[next] ?? 0;
  }
  return realOf({ order, starts: [], most: 0, last: 0 }, node, takes);
}

/**
 * Where the schedule is not the best, some piece before the critical ones is in their way: it goes behind them all, or before
 * them all. None where the schedule is the best for its heads and tails.
 */
function branches(node: Node, schedule: Schedule, takes: readonly number[]): Node[] {
  const { order, starts, last } = schedule;
  let first = last;
  while (first > 0 && (starts[first] ?? 0) <= endAt(schedule, first - 1, takes) + NOTHING) first -= 1;
  const tail = node.tails[order[last] ?? 0] ?? 0;
  let inTheWay = -1;
  for (let place = first; place < last; place++)
    if ((node.tails[order[place] ?? 0] ?? 0) < tail) inTheWay = place;
  if (inTheWay < 0) return [];
  const piece = order[inTheWay] ?? 0;
  const critical = order.slice(inTheWay + 1, last + 1);
  const head = Math.min(...critical.map((one) => node.heads[one] ?? 0));
  const shortest = Math.min(...critical.map((one) => node.tails[one] ?? 0));
  const work = critical.reduce((sum, one) => sum + (takes[one] ?? 0), 0);
  const behind = node.heads.with(piece, Math.max(node.heads[piece] ?? 0, head + work));
  const before = node.tails.with(piece, Math.max(node.tails[piece] ?? 0, work + shortest));
  return [
    { heads: behind, tails: node.tails },
    { heads: node.heads, tails: before },
  ].map(({ heads, tails }) => ({
    heads,
    tails,
    bound: Math.max(node.bound, mostPreempted(heads, tails, takes)),
  }));
}

const endAt = ({ order, starts }: Schedule, place: number, takes: readonly number[]) =>
  (starts[place] ?? 0) + (takes[order[place] ?? 0] ?? 0);

/** The least that the largest end can be if work may be left and taken up again: no whole order has less. */
export function mostPreempted(
  heads: readonly number[],
  tails: readonly number[],
  takes: readonly number[],
): number {
  const left = [...takes];
  const byHead = [...takes.keys()].sort((a, b) => (heads[a] ?? 0) - (heads[b] ?? 0));
  const open = new Set<number>();
  let [at, next, most] = [Number.NEGATIVE_INFINITY, 0, Number.NEGATIVE_INFINITY];
  while (next < byHead.length || open.size > 0) {
    if (open.size === 0) at = Math.max(at, heads[byHead[next] ?? 0] ?? 0);
    while (next < byHead.length && (heads[byHead[next] ?? 0] ?? 0) <= at + NOTHING)
      open.add(byHead[next++] ?? 0);
    const piece = [...open].reduce((a, b) => ((tails[b] ?? 0) > (tails[a] ?? 0) ? b : a));
    const coming = next < byHead.length ? (heads[byHead[next] ?? 0] ?? 0) : Number.POSITIVE_INFINITY;
    const works = Math.min(left[piece] ?? 0, coming - at);
    left[piece] = (left[piece] ?? 0) - works;
    at += works;
    if ((left[piece] ?? 0) <= NOTHING) {
      open.delete(piece);
      most = Math.max(most, at + (tails[piece] ?? 0));
    }
  }
  return most;
}
