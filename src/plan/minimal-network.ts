/** The tightest distances that a network implies between all its points: the reference view, not the fast one. */
import type { Network } from './network.ts';

/**
 * Row i, column j: the most days by which point j can come after point i, null for no bound; the whole is null
 * when the network is infeasible. All-pairs shortest paths (Floyd-Warshall).
 */
export function minimalNetwork({ points, gaps }: Network): (number | null)[][] | null {
  const rows = Array.from({ length: points }, (_, i) =>
    Array.from({ length: points }, (_, j) => (i === j ? 0 : Infinity)),
  );
  const bound = (i: number, j: number, days: number) => {
    rows[i]![j] = Math.min(rows[i]![j]!, days);
  };
  for (const { from, to, lo, hi } of gaps) {
    if (hi !== null) bound(from, to, hi);
    if (lo !== null) bound(to, from, 0 - lo);
  }
  for (let mid = 0; mid < points; mid++) {
    for (let i = 0; i < points; i++) {
      for (let j = 0; j < points; j++) bound(i, j, rows[i]![mid]! + rows[mid]![j]!);
    }
  }
  if (rows.some((row, i) => row[i]! < 0)) return null;
  return rows.map((row) => row.map((days) => (days === Infinity ? null : days)));
}
