/** What carriers report of texts that they took: in any order, twice or late, and never backwards. */
import { fillIn } from './outbox.ts';
import type { Executor } from './ready-query.ts';
import type { OutboxRow } from './tables.ts';

/** The step of a receipt that tells the end of a text. */
const ENDED = 3;

/** What a carrier reports of a text: how far it has come, and the state that follows from it. */
export interface Receipt {
  /** Our id of the text, when the carrier gives it back; else the text is found by the carrier's own. */
  readonly id: string | null;
  readonly carrierId: string;
  /** 0 waits at the carrier, 1 sending, 2 sent, 3 ended, 4 read. */
  readonly step: number;
  readonly state: 'handed' | 'delivered' | 'failed';
  readonly why: string | null;
  /** Parts as the carrier counts them, when it says so; it fills a count that is missing. */
  readonly parts?: number | null;
}

/**
 * Notes a receipt and returns the text; null when there is no such text, or the receipt tells nothing new: what comes late,
 * twice or out of order never moves a text back. It may come before the carrier's answer to our own hand-over.
 */
export async function noteReceipt(db: Executor, receipt: Receipt, nowMs: number): Promise<OutboxRow | null> {
  const text = await textOf(db, receipt);
  if (text === null) return null;
  const { carrierId, step, state, why, parts = null } = receipt;
  if (!tellsMore(text, receipt)) {
    if (parts !== null) await fillIn(db, text.id, { carrier_parts: parts });
    return null;
  }
  const first = { handed_ms: text.handed_ms ?? nowMs, carrier_parts: text.carrier_parts ?? parts };
  const ours = { carrier_id: carrierId, receipt: step, state, why, ...first } as const;
  const told = { ...ours, settled_ms: nowMs, doubtful: 0 } as const;
  await db.updateTable('outbox').set(told).where('id', '=', text.id).execute();
  return { ...text, ...told };
}

async function textOf(db: Executor, { id, carrierId }: Receipt): Promise<OutboxRow | null> {
  const byCarrier = db.selectFrom('outbox').selectAll().where('carrier_id', '=', carrierId);
  const known = await byCarrier.executeTakeFirst();
  if (known !== undefined || id === null) return known ?? null;
  const own = db.selectFrom('outbox').selectAll().where('id', '=', id).where('carrier_id', 'is', null);
  return (await own.executeTakeFirst()) ?? null;
}

/** A text that we gave up without the carrier's word may yet arrive; what the carrier has ended stays ended. */
function tellsMore(text: OutboxRow, { step }: Receipt): boolean {
  if (text.state === 'queued') return true;
  if (text.state === 'failed' && text.receipt < ENDED) return step >= ENDED;
  return step > text.receipt;
}
