/** Every text that came in, with its answer: the same delivery twice finds its first answer here. */
import { type Executor, readyQuery } from './ready-query.ts';
import type { TextsInTable } from './tables.ts';

const selectAnswer = readyQuery((db, at: { carrierId: string }) =>
  db.selectFrom('texts_in').select(['id', 'answer']).where('carrier_id', '=', at.carrierId),
);

const insertText = readyQuery((db, row: TextsInTable) =>
  db.insertInto('texts_in').values({
    id: row.id,
    carrier_id: row.carrier_id,
    phone: row.phone,
    turn: row.turn,
    body: row.body,
    received_ms: row.received_ms,
    answer: row.answer,
    faulty: row.faulty,
  }),
);

/** The answer given to this delivery before; null when it is new. */
export async function answeredBefore(
  db: Executor,
  carrierId: string,
): Promise<{ readonly answer: string | null } | null> {
  return (await selectAnswer(db, { carrierId }))[0] ?? null;
}

/** Keeps the text with its answer; throws when this delivery is kept already. */
export async function keepText(db: Executor, row: TextsInTable): Promise<void> {
  await insertText(db, row);
}
