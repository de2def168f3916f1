/** Tells agents how many their broadcasts reached, once every text has come to an end or nothing more is heard of it. */
import { countTexts, failedPlots, isSending } from '../store/broadcast-texts.ts';
import { broadcastsIn, findBroadcast, type KeptBroadcast, markTold } from '../store/broadcasts.ts';
import type { Trx } from '../store/commit-together.ts';
import { queueText } from '../store/outbox.ts';
import { languageOf } from '../store/people.ts';
import { findPhone } from '../store/talks.ts';
import type { Delivery } from '../talk/broadcast.ts';
import { BROADCAST_PARTS, pieceTimes } from './broadcast-piece.ts';
import { faultNote } from './fault-note.ts';
import type { Line } from './line.ts';
import { newsEndMs } from './quiet-hours.ts';
import { schemeOfBroadcast } from './sweep-broadcasts.ts';

/** How long receipts are waited for after the last thing that was heard: some carriers give none. */
const RECEIPTS_MS = 30 * 60_000;

const MOST_PLOTS = 12;

/** Ends every broadcast whose texts have ended; returns how many agents are told. Faults are logged. */
export async function sweepDeliveries(line: Line): Promise<number> {
  let told = 0;
  for (const id of await broadcastsIn(line.db, 'sending')) {
    try {
      if (await line.together((trx) => tellAgent(trx, line, id))) told += 1;
    } catch (error) {
      line.log.error({ broadcast: id, fault: faultNote(error) }, 'a broadcast could not be told of');
    }
  }
  return told;
}

async function tellAgent(trx: Trx, line: Line, id: string): Promise<boolean> {
  const broadcast = await findBroadcast(trx, id);
  if (broadcast?.state !== 'sending' || (await isSending(trx, id))) return false;
  const { phones, reached, handed, lastSettledMs } = await countTexts(trx, id);
  const nowMs = line.clock.nowMs();
  if (handed > 0 && mayStillHear(nowMs, lastSettledMs)) return false;
  await markTold(trx, broadcast);
  const failed = reached < phones ? await failedPlots(trx, broadcast, MOST_PLOTS) : [];
  return queueDelivery(trx, line, broadcast, {
    broadcast: broadcast.head,
    phones,
    reached,
    failedPlots: failed,
  });
}

/** A clock that was put back far must not keep an agent waiting until it has caught up. */
function mayStillHear(nowMs: number, lastSettledMs: number): boolean {
  return Math.abs(nowMs - lastSettledMs) < RECEIPTS_MS;
}

/** No text to an agent who was forgotten, or whose phone takes none. */
async function queueDelivery(
  trx: Trx,
  line: Line,
  broadcast: KeptBroadcast,
  delivery: Delivery,
): Promise<boolean> {
  const { id, phone, head } = broadcast;
  const lang = await languageOf(trx, head.agentId);
  if (lang === null || (await findPhone(trx, phone))?.stopped !== 0) return false;
  const scheme = schemeOfBroadcast(line, broadcast);
  const { nowMs, notBeforeMs } = pieceTimes(line.clock.nowMs(), scheme);
  const text = line.voice(lang).say(line.talk.delivered(delivery), BROADCAST_PARTS);
  const expiresMs = newsEndMs(notBeforeMs);
  const key = `delivered:${id}`;
  const row = { id: line.makeId(), key, phone, text, notBeforeMs, expiresMs };
  return queueText(trx, row, nowMs, scheme.settings.pricePerPart ?? null);
}
