/** Statements over many rows at once whose SQL is made once: a row costs no more than the binding of its values. */
import type { Compilable, CompiledQuery, DialectAdapter } from 'kysely';
import type { Executor } from './ready-query.ts';

/** Rows in one statement, the largest first: what is left over goes in smaller ones, and few statements are kept. */
const SIZES = [100, 10, 1] as const;

/** Stands for one column of one of the rows. */
class Place {
  readonly row: number;
  readonly column: string;
  constructor(row: number, column: string) {
    this.row = row;
    this.column = column;
  }
}

/** Runs the statement over all the rows, in their order; nothing for none. */
export type ReadyRows<Row> = (db: Executor, rows: readonly Row[]) => Promise<void>;

/**
 * Makes the statement for each number of rows it is run with. In `build`, each of `rows` stands for one row.
 * `readyRows((db, rows: readonly { id: string }[]) => db.insertInto('phones').values(rows.map(({ id }) => …)))`
 */
export function readyRows<Row extends object>(
  build: (db: Executor, rows: readonly Row[]) => Compilable,
): ReadyRows<Row> {
  const made = new WeakMap<DialectAdapter, Map<number, CompiledQuery>>();
  const queryFor = (db: Executor, size: number): CompiledQuery => {
    const { adapter } = db.getExecutor();
    const bySize = made.get(adapter) ?? new Map<number, CompiledQuery>();
    made.set(adapter, bySize);
    const query = bySize.get(size) ?? build(db, placesOf<Row>(size)).compile();
    bySize.set(size, query);
    return query;
  };
  return async (db, rows) => {
    let at = 0;
    for (const size of SIZES) {
      for (; rows.length - at >= size; at += size) {
        const query = queryFor(db, size);
        const parameters = query.parameters.map((value) =>
          value instanceof Place ? given(rows[at + value.row], value.column) : value,
        );
        await db.executeQuery({ ...query, parameters });
      }
    }
  };
}

function placesOf<Row extends object>(size: number): readonly Row[] {
  return Array.from(
    { length: size },
    (_, row) => new Proxy({} as Row, { get: (_target, column) => new Place(row, String(column)) }),
  );
}

function given(row: object | undefined, column: string): unknown {
  const value = (row as Record<string, unknown> | undefined)?.[column];
  if (value === undefined) throw new Error(`a row has no value for "${column}"`);
  return value;
}
