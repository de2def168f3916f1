/** Hands queued texts to the carrier. A text is leased first, so that two senders never hold it at once. */
import type { Handing } from '../carriers/carrier.ts';
import { dropExpired, leaseTexts, markFailed, markHanded, retryAt } from '../store/outbox.ts';
import type { OutboxTable } from '../store/tables.ts';
import { faultNote } from './fault-note.ts';
import type { Line } from './line.ts';

/** Texts leased at once. */
const TEXTS_TOGETHER = 50;

/** Tries before a text is given up. */
export const MOST_ATTEMPTS = 6;

/** A sweep that has sent for so long leaves the rest to the next: reminders and quiet hours are looked at in between. */
const LONGEST_SWEEP_MS = 50_000;

const FIRST_RETRY_MS = 60_000;
const LONGEST_RETRY_MS = 3_600_000;

/** Waiting time before the next try, doubling from one minute to one hour. `retryDelayMs(1)` is 60000. */
export function retryDelayMs(attempt: number): number {
  return Math.min(FIRST_RETRY_MS * 2 ** (attempt - 1), LONGEST_RETRY_MS);
}

/** Sends what may be sent now, and drops what came too late; returns how many texts the carrier took. */
export async function sweepOutbox(line: Line): Promise<number> {
  const startMs = line.clock.nowMs();
  await dropExpired(line.db, startMs);
  let handed = 0;
  for (;;) {
    const nowMs = line.clock.nowMs();
    if (nowMs - startMs >= LONGEST_SWEEP_MS) return handed;
    const texts = await line.together((trx) => leaseTexts(trx, nowMs, TEXTS_TOGETHER));
    if (texts.length === 0) return handed;
    const results = await Promise.all(texts.map((text) => sendText(line, text)));
    handed += results.filter((kind) => kind === 'handed').length;
  }
}

async function sendText(line: Line, text: OutboxTable): Promise<Handing['kind']> {
  const handing = await hand(line, text);
  const nowMs = line.clock.nowMs();
  await line.together((trx) => {
    switch (handing.kind) {
      case 'handed':
        return markHanded(trx, text.id, handing.carrierId, nowMs);
      case 'failed':
        return markFailed(trx, text.id, handing.why, nowMs);
      case 'retry':
      case 'unknown': {
        if (text.attempts >= MOST_ATTEMPTS) return markFailed(trx, text.id, handing.why, nowMs);
        const asked = handing.kind === 'retry' ? (handing.afterMs ?? 0) : 0;
        const waitMs = Math.max(asked, retryDelayMs(text.attempts));
        return retryAt(trx, text.id, nowMs + waitMs, handing.why);
      }
    }
  });
  return handing.kind;
}

/** A carrier that throws has told us nothing about the text. */
async function hand(line: Line, { phone, text, key, attempts }: OutboxTable): Promise<Handing> {
  try {
    return await line.carrier.send({ to: phone, text, key, attempt: attempts });
  } catch (error) {
    line.log.error({ carrier: line.carrier.name, fault: faultNote(error) }, 'the carrier failed');
    return { kind: 'unknown', why: 'the carrier failed' };
  }
}
