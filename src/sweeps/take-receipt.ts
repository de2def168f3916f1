/** What a carrier reports of a text after it took it: kept, and acted on where it tells of the number or asks for another try. */
import { type Meaning, meaningOf } from '../carriers/rest-errors.ts';
import type { Trx } from '../store/commit-together.ts';
import { AGAIN, queueText } from '../store/outbox.ts';
import { peopleOfPhone } from '../store/people.ts';
import { noteReceipt, type Receipt } from '../store/receipts.ts';
import type { OutboxRow } from '../store/tables.ts';
import { findPhone, markReached } from '../store/talks.ts';
import type { Line } from './line.ts';
import { noteNumber } from './number-news.ts';
import { schemeOf } from './phone-setting.ts';
import { afterQuietMs } from './quiet-hours.ts';

/** A receipt as it came in. */
export interface ReceiptIn {
  /** Our id of the text, null when it was not given back. */
  readonly id: string | null;
  readonly carrierId: string;
  /** The carrier's word: "sent", "delivered", "undelivered". */
  readonly status: string;
  readonly errorCode: number | null;
  /** Parts as the carrier counts them, where it says so. */
  readonly parts?: number | null;
}

/** The public list of message states of the Twilio-compatible interface. */
const STATUSES: Readonly<Record<string, Pick<Receipt, 'step' | 'state'>>> = {
  accepted: { step: 0, state: 'handed' },
  scheduled: { step: 0, state: 'handed' },
  queued: { step: 0, state: 'handed' },
  sending: { step: 1, state: 'handed' },
  sent: { step: 2, state: 'handed' },
  delivered: { step: 3, state: 'delivered' },
  undelivered: { step: 3, state: 'failed' },
  failed: { step: 3, state: 'failed' },
  canceled: { step: 3, state: 'failed' },
  read: { step: 4, state: 'delivered' },
};

const HOUR_MS = 3_600_000;
/** A text that a phone out of reach did not get is sent once more, when it is still worth something then. */
const AGAIN_AFTER_MS: Readonly<Partial<Record<Meaning, number>>> = { tomorrow: 12 * HOUR_MS, later: HOUR_MS };

/** Keeps the receipt; false when it tells nothing that was not known, or of no text of ours. Any order will do. */
export async function takeReceipt(line: Line, receipt: ReceiptIn): Promise<boolean> {
  const told = STATUSES[receipt.status.toLowerCase()];
  if (told === undefined) return false;
  return line.together(async (trx) => {
    const { id, carrierId, errorCode, parts = null } = receipt;
    const why = told.state === 'failed' ? `error ${errorCode ?? 'not named'}` : null;
    const text = await noteReceipt(trx, { id, carrierId, ...told, why, parts }, line.clock.nowMs());
    if (text === null) return false;
    if (told.state === 'delivered') await markReached(trx, text.phone);
    if (told.state === 'failed') await actOn(trx, line, text, meaningOf(errorCode, 200));
    return true;
  });
}

async function actOn(trx: Trx, line: Line, text: OutboxRow, meaning: Meaning): Promise<void> {
  if (meaning === 'alarm') line.log.error({ why: text.why }, 'the carrier holds texts back: ask it why');
  if (meaning === 'opted-out' || meaning === 'gone') return noteNumber(trx, line, text.phone, meaning);
  const waitMs = AGAIN_AFTER_MS[meaning];
  if (waitMs === undefined || text.key.startsWith(AGAIN)) return;
  const { settings, timeZone } = schemeOf(line, { people: await peopleOfPhone(trx, text.phone) });
  const againMs = afterQuietMs(line.clock.nowMs() + waitMs, settings.quiet, timeZone);
  if (againMs >= text.expires_ms || (await findPhone(trx, text.phone))?.stopped === 1) return;
  const { phone, expires_ms: expiresMs } = text;
  const again = { id: line.makeId(), key: AGAIN + text.key, phone, text: text.text, expiresMs };
  // It counts as queued when it may go: a look-up must not take the first one for it.
  await queueText(trx, { ...again, notBeforeMs: againMs }, againMs, settings.pricePerPart ?? null);
}
