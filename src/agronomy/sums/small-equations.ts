/** As many linear equations as unknowns, a handful of them. */

const SINGULAR = 1e-12;

/** The solution of `rows` x = `right`, by elimination with the largest pivot; null when there is not exactly one. */
export function solveEquations(
  rows: readonly (readonly number[])[],
  right: readonly number[],
): readonly number[] | null {
  const table = rows.map((row, index) => [...row, right[index] ?? 0]);
  for (let column = 0; column < table.length; column++) {
    const pivot = largestBelow(table, column);
    const lead = table[pivot]?.[column] ?? 0;
    if (Math.abs(lead) < SINGULAR) return null;
    const pivotRow = (table[pivot] ?? []).map((value) => value / lead);
    table[pivot] = table[column] ?? [];
    table[column] = pivotRow;
    for (const [index, row] of table.entries()) {
      if (index === column) continue;
      const times = row[column] ?? 0;
      table[index] = row.map((value, at) => value - times * (pivotRow[at] ?? 0));
    }
  }
  return table.map((row) => row.at(-1) ?? 0);
}

function largestBelow(table: readonly (readonly number[])[], column: number): number {
  let best = column;
  for (let row = column + 1; row < table.length; row++)
    if (Math.abs(table[row]?.[column] ?? 0) > Math.abs(table[best]?.[column] ?? 0)) best = row;
  return best;
}

/** Every choice of so many of the items, in the order of the list. */
export function choices<T>(items: readonly T[], many: number): readonly (readonly T[])[] {
  if (many === 0) return [[]];
  return items.flatMap((item, index) =>
    choices(items.slice(index + 1), many - 1).map((others) => [item, ...others]),
  );
}
