/** Texts on their way out: queued -> handed -> delivered | failed, never back. Each key is queued once. */
import { type Executor, readyQuery } from './ready-query.ts';
import { readyRows } from './ready-rows.ts';
import type { OutboxTable } from './tables.ts';

/** How long one sender may hold a text before another may take it: far longer than a carrier's answer takes. */
export const LEASE_MS = 60_000;

/** A text to be sent. */
export interface NewText {
  readonly id: string;
  readonly key: string;
  readonly phone: string;
  readonly text: string;
  readonly notBeforeMs: number;
  /** From this instant on it is worth nothing and is dropped. */
  readonly expiresMs: number;
}

/** A text with the instant at which it is queued. */
type QueuedText = NewText & { readonly nowMs: number };

const columnsOf = (row: QueuedText) =>
  ({
    id: row.id,
    key: row.key,
    phone: row.phone,
    text: row.text,
    state: 'queued',
    created_ms: row.nowMs,
    not_before_ms: row.notBeforeMs,
    expires_ms: row.expiresMs,
    lease_until_ms: 0,
    attempts: 0,
  }) as const;

const insertText = readyQuery((db, row: QueuedText) =>
  db
    .insertInto('outbox')
    .values(columnsOf(row))
    .onConflict((on) => on.column('key').doNothing())
    .returning('id'),
);

const insertTexts = readyRows((db, rows: readonly QueuedText[]) =>
  db
    .insertInto('outbox')
    .values(rows.map(columnsOf))
    .onConflict((on) => on.column('key').doNothing()),
);

const selectKey = readyQuery((db, at: { key: string }) =>
  db.selectFrom('outbox').select('id').where('key', '=', at.key),
);

/** Queues the text; false, and nothing changes, when a text of this key was queued before. */
export async function queueText(db: Executor, text: NewText, nowMs: number): Promise<boolean> {
  return (await insertText(db, { ...text, nowMs })).length > 0;
}

/** Queues many texts at once; those whose keys were queued before stay as they are. */
export async function queueTexts(db: Executor, texts: readonly NewText[], nowMs: number): Promise<void> {
  await insertTexts(
    db,
    texts.map((text) => ({ ...text, nowMs })),
  );
}

/** Whether a text of this key was ever queued. */
export async function isQueued(db: Executor, key: string): Promise<boolean> {
  return (await selectKey(db, { key })).length > 0;
}

/** Takes up to `most` queued texts whose time has come and leases them; run it in a transaction. */
export async function leaseTexts(db: Executor, nowMs: number, most: number): Promise<readonly OutboxTable[]> {
  const texts = await db
    .selectFrom('outbox')
    .selectAll()
    .where('state', '=', 'queued')
    .where('not_before_ms', '<=', nowMs)
    .where('expires_ms', '>', nowMs)
    // A lease that ends later than any lease can was made before the clock was put back: it is void.
    .where((eb) => eb.or([eb('lease_until_ms', '<=', nowMs), eb('lease_until_ms', '>', nowMs + LEASE_MS)]))
    .orderBy('not_before_ms')
    .orderBy('id')
    .limit(most)
    .execute();
  const ids = texts.map((text) => text.id);
  if (ids.length === 0) return [];
  const lease = db.updateTable('outbox').set({ lease_until_ms: nowMs + LEASE_MS });
  await lease
    .set((eb) => ({ attempts: eb('attempts', '+', 1) }))
    .where('id', 'in', ids)
    .execute();
  return texts.map((text) => ({ ...text, attempts: text.attempts + 1 }));
}

/** Notes that the carrier took the text; does nothing when the text is no longer queued. */
export async function markHanded(db: Executor, id: string, carrierId: string, nowMs: number): Promise<void> {
  const handed = { state: 'handed', carrier_id: carrierId, settled_ms: nowMs } as const;
  await db.updateTable('outbox').set(handed).where('id', '=', id).where('state', '=', 'queued').execute();
}

/** Notes that the text will not be sent, and why; does nothing when the text is no longer queued. */
export async function markFailed(db: Executor, id: string, why: string, nowMs: number): Promise<void> {
  const failed = { state: 'failed', why, settled_ms: nowMs } as const;
  await db.updateTable('outbox').set(failed).where('id', '=', id).where('state', '=', 'queued').execute();
}

/** Gives the text back to the queue for another try at `notBeforeMs`. */
export async function retryAt(db: Executor, id: string, notBeforeMs: number, why: string): Promise<void> {
  const again = { lease_until_ms: 0, not_before_ms: notBeforeMs, why };
  await db.updateTable('outbox').set(again).where('id', '=', id).where('state', '=', 'queued').execute();
}

/** What the carrier reports about a text it took; a report that would move the text back changes nothing. */
export async function noteDelivery(
  db: Executor,
  carrierId: string,
  state: 'delivered' | 'failed',
  nowMs: number,
): Promise<void> {
  const ended = { state, settled_ms: nowMs };
  const text = db.updateTable('outbox').set(ended).where('carrier_id', '=', carrierId);
  await text.where('state', '=', 'handed').execute();
}

/** Fails every queued text whose time has passed; returns how many. */
export async function dropExpired(db: Executor, nowMs: number): Promise<number> {
  const failed = { state: 'failed', why: 'expired', settled_ms: nowMs } as const;
  const late = db.updateTable('outbox').set(failed).where('state', '=', 'queued');
  return Number((await late.where('expires_ms', '<=', nowMs).executeTakeFirst()).numUpdatedRows);
}

/** Fails every queued text to a number that has opted out. */
export async function purgePhone(db: Executor, phone: string, nowMs: number): Promise<void> {
  const failed = { state: 'failed', why: 'opted-out', settled_ms: nowMs } as const;
  const queued = db.updateTable('outbox').set(failed).where('phone', '=', phone);
  await queued.where('state', '=', 'queued').execute();
}

/** Texts handed to the carrier for this phone since an instant, oldest first. */
export async function textsTo(db: Executor, phone: string, sinceMs: number): Promise<readonly OutboxTable[]> {
  return await db
    .selectFrom('outbox')
    .selectAll()
    .where('phone', '=', phone)
    .where('state', 'in', ['handed', 'delivered'])
    .where('settled_ms', '>=', sinceMs)
    .orderBy('settled_ms')
    .orderBy('id')
    .execute();
}
