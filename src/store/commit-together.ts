/**
 * Gathers pieces of work that arrive while another commit is under way and commits them in one transaction.
 * Each piece has a savepoint of its own: one that throws loses its own writes only. None is answered before the commit.
 */
import { CompiledQuery, type Transaction } from 'kysely';
import type { Db } from './open.ts';
import type { Tables } from './tables.ts';

export type Trx = Transaction<Tables>;

/** Runs work inside a transaction and returns its result once that is durable; rethrows what the work throws. */
export type CommitTogether = <Result>(work: (trx: Trx) => Promise<Result>) => Promise<Result>;

/** Most pieces in one transaction: bounds how long the first of them waits. */
export const MOST_TOGETHER = 64;

interface Piece {
  readonly run: (trx: Trx) => Promise<void>;
  readonly done: () => void;
  readonly fail: (error: unknown) => void;
}

/** Makes the gatherer of one database. */
export function commitTogether(db: Db, most = MOST_TOGETHER): CommitTogether {
  const waiting: Piece[] = [];
  let busy = false;

  const drain = async () => {
    busy = true;
    while (waiting.length > 0) await commitPieces(db, waiting.splice(0, most));
    busy = false;
  };

  return (work) =>
    new Promise((resolve, reject) => {
      let result: Awaited<ReturnType<typeof work>>;
      waiting.push({
        run: async (trx) => {
          result = await work(trx);
        },
        done: () => resolve(result),
        fail: reject,
      });
      // What else has arrived in this turn of the event loop joins the same commit.
      if (!busy) {
        busy = true;
        setImmediate(() => void drain());
      }
    });
}

/** Never rejects: each piece learns its own end. */
async function commitPieces(db: Db, pieces: readonly Piece[]): Promise<void> {
  const faults = new Map<Piece, unknown>();
  try {
    await db.transaction().execute(async (trx) => {
      for (const piece of pieces) await runPiece(trx, piece, faults);
    });
  } catch (error) {
    for (const piece of pieces) piece.fail(faults.get(piece) ?? error);
    return;
  }
  for (const piece of pieces) {
    if (faults.has(piece)) piece.fail(faults.get(piece));
    else piece.done();
  }
}

async function runPiece(trx: Trx, piece: Piece, faults: Map<Piece, unknown>): Promise<void> {
  await savepoint.begin(trx);
  try {
    await piece.run(trx);
    await savepoint.release(trx);
  } catch (error) {
    await savepoint.rollBack(trx);
    await savepoint.release(trx);
    faults.set(piece, error);
  }
}

const savepoint = {
  begin: (trx: Trx) => trx.executeQuery(CompiledQuery.raw('savepoint piece')),
  rollBack: (trx: Trx) => trx.executeQuery(CompiledQuery.raw('rollback to savepoint piece')),
  release: (trx: Trx) => trx.executeQuery(CompiledQuery.raw('release savepoint piece')),
};
