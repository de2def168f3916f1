/** Texts on their way out: queued -> handed -> delivered | failed, never back. Each key is queued once. */
import { measure, type Size } from '../say/parts.ts';
import type { PricePerPart } from '../scheme/group-section.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import { readyRows } from './ready-rows.ts';
import type { OutboxRow } from './tables.ts';
import { type Cost, costOf } from './text-cost.ts';

/** How long one sender may hold a text before another may take it: far longer than a carrier's answer takes. */
export const LEASE_MS = 60_000;

/**
 * A lease that ends so much later was made before the clock was put back: it is void. One that ends a little later than ours
 * would is another sender's, who has read the clock after us, or reads another.
 */
const VOID_AFTER_MS = 2 * LEASE_MS;

/** What keys of second texts begin with; the first one's key follows. */
export const AGAIN = 'again:';

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

/** A text with its size and cost, and the instant at which it is queued. */
type QueuedText = NewText & Size & Cost & { readonly nowMs: number };

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
    encoding: row.encoding,
    units: row.units,
    parts: row.parts,
    price: row.price,
    currency: row.currency,
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

/**
 * Queues the text at the scheme's price, null where it names none; false, and nothing changes, when a text of this key was
 * queued before.
 */
export async function queueText(
  db: Executor,
  text: NewText,
  nowMs: number,
  price: PricePerPart | null,
): Promise<boolean> {
  const size = measure(text.text);
  return (await insertText(db, { ...text, ...size, ...costOf(size.parts, price), nowMs })).length > 0;
}

/** Queues many texts of one scheme at once; those whose keys were queued before stay as they are. */
export async function queueTexts(
  db: Executor,
  texts: readonly NewText[],
  nowMs: number,
  price: PricePerPart | null,
): Promise<void> {
  const known = new Map<string, Size & Cost>();
  const sized = (text: string): Size & Cost => {
    const size = measure(text);
    const all = { ...size, ...costOf(size.parts, price) };
    known.set(text, all);
    return all;
  };
  await insertTexts(
    db,
    texts.map((text) => ({ ...text, ...(known.get(text.text) ?? sized(text.text)), nowMs })),
  );
}

/** Whether a text of this key was ever queued. */
export async function isQueued(db: Executor, key: string): Promise<boolean> {
  return (await selectKey(db, { key })).length > 0;
}

/**
 * Takes up to `most` queued texts whose time has come and leases them; run it in a transaction. `doubtful` tells of the try
 * before; the one that begins is doubtful until its end is noted.
 */
export async function leaseTexts(db: Executor, nowMs: number, most: number): Promise<readonly OutboxRow[]> {
  const texts = await db
    .selectFrom('outbox')
    .selectAll()
    .where('state', '=', 'queued')
    .where('not_before_ms', '<=', nowMs)
    .where('expires_ms', '>', nowMs)
    .where((eb) =>
      eb.or([eb('lease_until_ms', '<=', nowMs), eb('lease_until_ms', '>', nowMs + VOID_AFTER_MS)]),
    )
    .orderBy('not_before_ms')
    .orderBy('id')
    .limit(most)
    .execute();
  const ids = texts.map((text) => text.id);
  if (ids.length === 0) return [];
  const lease = db.updateTable('outbox').set({ lease_until_ms: nowMs + LEASE_MS, doubtful: 1 });
  await lease
    .set((eb) => ({ attempts: eb('attempts', '+', 1) }))
    .where('id', 'in', ids)
    .execute();
  return texts.map((text) => ({ ...text, attempts: text.attempts + 1 }));
}

/**
 * Notes that the carrier took the text. One that is no longer queued, since a receipt came first or it was given up meanwhile,
 * stays in its state: only what is not known of it yet is filled in.
 */
export async function markHanded(
  db: Executor,
  id: string,
  { carrierId, parts }: { readonly carrierId: string; readonly parts?: number | null },
  nowMs: number,
): Promise<void> {
  const taken = { carrier_id: carrierId, carrier_parts: parts ?? null, doubtful: 0 } as const;
  const handed = { ...taken, state: 'handed', settled_ms: nowMs, handed_ms: nowMs } as const;
  const queued = db.updateTable('outbox').set(handed).where('id', '=', id).where('state', '=', 'queued');
  if ((await queued.executeTakeFirst()).numUpdatedRows > 0n) return;
  await fillIn(db, id, { carrier_id: carrierId, carrier_parts: parts ?? null, handed_ms: nowMs });
}

/** Sets each of these columns that is still null. */
export async function fillIn(
  db: Executor,
  id: string,
  told: Partial<Pick<OutboxRow, 'carrier_id' | 'carrier_parts' | 'handed_ms'>>,
): Promise<void> {
  const text = await db.selectFrom('outbox').selectAll().where('id', '=', id).executeTakeFirst();
  if (text === undefined) return;
  const filled = {
    carrier_id: text.carrier_id ?? told.carrier_id ?? null,
    carrier_parts: text.carrier_parts ?? told.carrier_parts ?? null,
    handed_ms: text.handed_ms ?? told.handed_ms ?? null,
  };
  await db.updateTable('outbox').set(filled).where('id', '=', id).execute();
}

/** Notes that the text will not be sent, and why; does nothing when the text is no longer queued. */
export async function markFailed(db: Executor, id: string, why: string, nowMs: number): Promise<void> {
  const failed = { state: 'failed', why, settled_ms: nowMs } as const;
  await db.updateTable('outbox').set(failed).where('id', '=', id).where('state', '=', 'queued').execute();
}

/** The next try of a text. */
export interface NextTry {
  readonly notBeforeMs: number;
  /** Why there has to be one. */
  readonly why: string;
  /** Tries so far, as they count against it. */
  readonly attempts: number;
  /** Whether the last one may have been taken. */
  readonly doubtful: boolean;
}

/** Gives the text back to the queue for another try; does nothing when the text is no longer queued. */
export async function retryAt(
  db: Executor,
  id: string,
  { notBeforeMs, why, attempts, doubtful }: NextTry,
): Promise<void> {
  const tried = { why, attempts, doubtful: doubtful ? 1 : 0 } as const;
  const again = { ...tried, lease_until_ms: 0, not_before_ms: notBeforeMs } as const;
  await db.updateTable('outbox').set(again).where('id', '=', id).where('state', '=', 'queued').execute();
}

/** The carrier's own id of a text of ours; null when it has none yet, or there is no such text. */
export async function carrierIdOf(db: Executor, id: string): Promise<string | null> {
  const own = db.selectFrom('outbox').select('carrier_id').where('id', '=', id);
  return (await own.executeTakeFirst())?.carrier_id ?? null;
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
export async function textsTo(db: Executor, phone: string, sinceMs: number): Promise<readonly OutboxRow[]> {
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
