/** Queries whose SQL is made once and run many times with other values: building one costs more than running it. */
import type { Compilable, CompiledQuery, DialectAdapter, Kysely } from 'kysely';
import type { Tables } from './tables.ts';

/** The database, or a transaction in it. */
export type Executor = Kysely<Tables>;

/** Stands for a value that is given when the query runs. */
class Slot {
  readonly name: string;
  constructor(name: string) {
    this.name = name;
  }
}

/** Each name of `Values` as a place in the query, typed like the value that will stand there. */
type Slots<Values> = { readonly [K in keyof Values]: Values[K] };

/** Runs the query with these values and returns its rows; a query that returns none gives an empty list. */
export type ReadyQuery<Values, Row> = (db: Executor, values: Values) => Promise<readonly Row[]>;

/**
 * Makes a query once for each database it is run on. In `build`, `slots.phone` stands for the value `phone`.
 * `readyQuery((db, slots: {id: string}) => db.selectFrom('plots').selectAll().where('id', '=', slots.id))`
 */
export function readyQuery<Values extends object, Row>(
  build: (db: Executor, slots: Slots<Values>) => Compilable<Row>,
): ReadyQuery<Values, Row> {
  const made = new WeakMap<DialectAdapter, CompiledQuery<Row>>();
  return async (db, values) => {
    const { adapter } = db.getExecutor();
    let query = made.get(adapter);
    if (query === undefined) {
      query = build(db, slotsOf<Values>()).compile();
      made.set(adapter, query);
    }
    const parameters = query.parameters.map((at) => (at instanceof Slot ? given(values, at.name) : at));
    return (await db.executeQuery<Row>({ ...query, parameters })).rows;
  };
}

function slotsOf<Values extends object>(): Slots<Values> {
  return new Proxy({} as Slots<Values>, { get: (_target, name) => new Slot(String(name)) });
}

function given(values: object, name: string): unknown {
  const value = (values as Record<string, unknown>)[name];
  if (value === undefined) throw new Error(`the query has no value for "${name}"`);
  return value;
}
