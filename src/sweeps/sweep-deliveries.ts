/** Tells agents how many their broadcasts reached, once every text has come to an end or nothing more is heard of it. */
import { meaningOf } from '../carriers/rest-errors.ts';
import { measure } from '../say/parts.ts';
import {
  countTexts,
  type FailedText,
  failedTexts,
  isSending,
  plotsOfTexts,
} from '../store/broadcast-texts.ts';
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

/** Plots of those who were not reached that are named. */
const MOST_PLOTS = 12;

/** Parts that any text may have while it is measured: nothing is left out. */
const NO_LIMIT = 99;

/** The HTTP status of an answer that tells nothing beside its code. */
const REFUSED = 200;

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
  const { phones, handed, lastSettledMs } = await countTexts(trx, id);
  const nowMs = line.clock.nowMs();
  if (handed > 0 && mayStillHear(nowMs, lastSettledMs)) return false;
  await markTold(trx, broadcast);
  const failed = await failedTexts(trx, id);
  const lost = failed.filter(({ isTriedAgain }) => !isTriedAgain);
  const lostPhones = new Set(lost.map(({ phone }) => phone));
  const reached = phones - new Set(failed.map(({ phone }) => phone)).size;
  return queueDelivery(trx, line, broadcast, {
    ...{ broadcast: broadcast.head, phones, reached },
    triedAgain: phones - reached - lostPhones.size,
    lost: countReasons(lost),
    failedPlots: await plotsOfTexts(trx, broadcast, lost),
  });
}

/** Each phone once, under the reason of its last text. */
function countReasons(texts: readonly FailedText[]): Delivery['lost'] {
  const byPhone = new Map(texts.map(({ phone, why }) => [phone, reasonOf(why)]));
  const count = (reason: Reason) => [...byPhone.values()].filter((one) => one === reason).length;
  return { stopped: count('stopped'), gone: count('gone'), other: count('other') };
}

type Reason = keyof Delivery['lost'];

/** What is kept in the outbox under `why`, in the few words that an agent is told. */
function reasonOf(why: string | null): Reason {
  if (why === 'opted-out') return 'stopped';
  if (why === 'number gone') return 'gone';
  const code = /^error (\d+)$/.exec(why ?? '')?.[1];
  const meaning = code === undefined ? null : meaningOf(Number(code), REFUSED);
  if (meaning === 'opted-out') return 'stopped';
  return meaning === 'gone' ? 'gone' : 'other';
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
  const text = deliveryIn(line, lang, delivery);
  const expiresMs = newsEndMs(notBeforeMs);
  const key = `delivered:${id}`;
  const row = { id: line.makeId(), key, phone, text, notBeforeMs, expiresMs };
  return queueText(trx, row, nowMs, scheme.settings.pricePerPart ?? null);
}

/** As many plots are named as leave room for all that is told. */
function deliveryIn(line: Line, lang: string, delivery: Delivery): string {
  const saying = (named: number) => line.talk.delivered(delivery, named);
  const fits = (named: number) => {
    const { encoding, parts } = measure(line.voice(lang).say(saying(named), NO_LIMIT));
    return parts <= BROADCAST_PARTS + (encoding === 'UCS-2' ? 1 : 0);
  };
  let named = Math.min(MOST_PLOTS, delivery.failedPlots.length);
  while (named > 1 && !fits(named)) named -= 1;
  return line.voice(lang).say(saying(named), BROADCAST_PARTS);
}
