/** Hands queued texts to the carrier. A text is leased first, so that two senders never hold it at once. */
import { createHash } from 'node:crypto';
import type { Handing } from '../carriers/carrier.ts';
import { measure } from '../say/parts.ts';
import type { Trx } from '../store/commit-together.ts';
import { dropExpired, leaseTexts, markFailed, markHanded, retryAt } from '../store/outbox.ts';
import type { OutboxRow } from '../store/tables.ts';
import { dropGone } from '../store/talks.ts';
import { faultNote } from './fault-note.ts';
import type { Line } from './line.ts';
import { noteNumber } from './number-news.ts';
import { putOffQuiet } from './put-off-quiet.ts';
import { type Pace, sendingPace } from './sending-pace.ts';

/** Texts leased at once. */
const TEXTS_TOGETHER = 50;

/** Texts leased at once wait for their turns no longer than this: far less than a lease. */
const LONGEST_TURN_S = 10;

/** Parts of a usual text, to tell how many have their turn in that time. */
const USUAL_PARTS = 2;

/** A sweep that has sent for so long leaves the rest to the next: reminders and quiet hours are looked at in between. */
const LONGEST_SWEEP_MS = 50_000;

const FIRST_RETRY_MS = 60_000;
const LONGEST_RETRY_MS = 15 * FIRST_RETRY_MS;
/** A waiting time may grow by so large a part, so that what failed together does not come again together. */
const JITTER = 0.25;

/** Shortest waiting time before the next try, doubling from one minute to a quarter of an hour. `retryDelayMs(1)` is 60000. */
export function retryDelayMs(attempt: number): number {
  return Math.min(FIRST_RETRY_MS * 2 ** (attempt - 1), LONGEST_RETRY_MS);
}

/** From 1 to 1.25, by the text and its try. */
function jitterOf({ id, attempts }: OutboxRow): number {
  const digest = createHash('sha256').update(`${id}:${attempts}`).digest();
  return 1 + (JITTER * digest.readUInt32BE(0)) / 2 ** 32;
}

/** A hand-over that shows settings which somebody must mend. */
function isAlarm(handing: Handing): handing is Extract<Handing, { kind: 'retry' | 'unknown' }> {
  return (handing.kind === 'retry' || handing.kind === 'unknown') && handing.alarm === true;
}

/** Sends what may be sent now, and drops what came too late; returns how many texts the carrier took. */
export async function sweepOutbox(line: Line): Promise<number> {
  const startMs = line.clock.nowMs();
  await dropExpired(line.db, startMs);
  await dropGone(line.db, startMs);
  const pace = sendingPace(line.carrier.partsPerSecond);
  const most = textsTogether(line.carrier.partsPerSecond);
  let handed = 0;
  for (;;) {
    const nowMs = line.clock.nowMs();
    if (nowMs - startMs >= LONGEST_SWEEP_MS) return handed;
    const { leased, texts } = await line.together((trx) => leaseToSend(trx, line, nowMs, most));
    if (leased === 0) return handed;
    if (texts.length === 0) continue;
    const handings = await Promise.all(texts.map((text) => sendText(line, text, pace)));
    handed += handings.filter(({ kind }) => kind === 'handed').length;
    // A carrier that wants no more for now, or settings that are wrong: the others would only meet the same.
    if (handings.every((handing) => handing.kind === 'retry' || isAlarm(handing))) return handed;
  }
}

/** Leases texts, and those of them that may go out now. */
async function leaseToSend(trx: Trx, line: Line, nowMs: number, most: number) {
  const leased = await leaseTexts(trx, nowMs, most);
  return { leased: leased.length, texts: await putOffQuiet(trx, line, leased, nowMs) };
}

function textsTogether(partsPerSecond: number | null): number {
  if (partsPerSecond === null) return TEXTS_TOGETHER;
  const inTurn = Math.floor((partsPerSecond * LONGEST_TURN_S) / USUAL_PARTS);
  return Math.min(TEXTS_TOGETHER, Math.max(1, inTurn));
}

async function sendText(line: Line, text: OutboxRow, pace: Pace): Promise<Handing> {
  await pace.turn(measure(text.text).parts);
  const handing = await hand(line, text);
  if (isAlarm(handing))
    line.log.error(
      { carrier: line.carrier.name, why: handing.why },
      'the carrier takes nothing: check the settings',
    );
  await line.together((trx) => noteHanding(trx, line, text, handing));
  return handing;
}

async function noteHanding(trx: Trx, line: Line, text: OutboxRow, handing: Handing): Promise<void> {
  const nowMs = line.clock.nowMs();
  switch (handing.kind) {
    case 'handed':
      return markHanded(trx, text.id, handing, nowMs);
    case 'failed':
      await markFailed(trx, text.id, handing.why, nowMs);
      if (handing.number) await noteNumber(trx, line, text.phone, handing.number);
      return;
    case 'retry':
    case 'unknown': {
      const { why, afterMs = 0, alarm = false } = handing;
      // However often: a text is tried for as long as it is worth something. Wrong settings do not make the waiting longer.
      const attempts = alarm ? text.attempts - 1 : text.attempts;
      const waitMs = Math.max(afterMs, retryDelayMs(text.attempts)) * jitterOf(text);
      const notBeforeMs = nowMs + Math.ceil(waitMs);
      return retryAt(trx, text.id, { notBeforeMs, why, attempts, doubtful: handing.kind === 'unknown' });
    }
  }
}

/** A carrier that throws has told us nothing about the text. */
async function hand(line: Line, text: OutboxRow): Promise<Handing> {
  const { id, phone, key, attempts, created_ms, expires_ms } = text;
  try {
    return await line.carrier.send({
      to: phone,
      text: text.text,
      id,
      key,
      attempt: attempts,
      doubtful: text.doubtful === 1,
      queuedMs: created_ms,
      validForMs: expires_ms - line.clock.nowMs(),
    });
  } catch (error) {
    line.log.error({ carrier: line.carrier.name, fault: faultNote(error) }, 'the carrier failed');
    return { kind: 'unknown', why: 'the carrier failed' };
  }
}
