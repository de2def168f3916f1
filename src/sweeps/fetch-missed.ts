/**
 * Texts that no webhook brought, because the line or the way to it was down: found in the carrier's list and walked like any
 * other, oldest first. Those taken already change nothing.
 */
import { schedule } from 'node-cron';
import type { ListedText, Listing } from '../carriers/rest-list.ts';
import { knownIds, newestReceivedMs } from '../store/texts-in.ts';
import { faultNote, phoneTail } from './fault-note.ts';
import type { Line } from './line.ts';
import { deliveryId, senderNumber } from './sender.ts';

/** A text that came in without a webhook. */
export interface MissedText {
  readonly carrierId: string;
  /** In E.164 form. */
  readonly from: string;
  readonly text: string;
  readonly sentMs: number;
  readonly carrierParts: number | null;
  /** It came with pictures or sound. */
  readonly hasMedia: boolean;
}

/** What fetching needs beside the line. */
export interface Fetching {
  /** Texts in since the day of an instant. */
  list(sinceMs: number): Promise<Listing>;
  /** Walks one text; its answer goes by the outbox. */
  take(text: MissedText): Promise<unknown>;
}

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;
/** A text so young may have its webhook under way still: what it brings is answered at once. */
const WEBHOOK_MS = 2 * MINUTE_MS;
/** Texts that are older are not answered any more. */
const OLDEST_MS = 7 * DAY_MS;

/** Fetches once; returns how many texts were taken. Faults are logged. */
export async function fetchMissed(line: Line, { list, take }: Fetching, sinceMs: number | null = null) {
  const nowMs = line.clock.nowMs();
  const dayAgoMs = nowMs - DAY_MS;
  const fromMs = Math.max(nowMs - OLDEST_MS, Math.min(sinceMs ?? dayAgoMs, dayAgoMs));
  const listing = await list(fromMs);
  if (listing.kind === 'failed') {
    line.log.warn({ why: listing.why }, 'the list of texts in cannot be read');
    return { taken: 0, isWhole: false };
  }
  const country = line.schemes()[0]?.country ?? 'GB';
  const texts = listing.texts
    .filter(({ sentMs }) => sentMs >= fromMs && sentMs <= nowMs - WEBHOOK_MS)
    .flatMap((text) => missedOf(text, country));
  const known = await knownIds(
    line.db,
    texts.map(({ carrierId }) => carrierId),
  );
  const missed = texts.filter(({ carrierId }) => !known.has(carrierId));
  let taken = 0;
  for (const text of missed) if (await takeSafely(line, take, text)) taken += 1;
  return { taken, isWhole: taken === missed.length };
}

/** Nothing for a sender that cannot be answered. */
function missedOf({ sid, from: written, parts, ...listed }: ListedText, country: string): MissedText[] {
  const from = senderNumber(written, country);
  if (from === null) return [];
  return [{ ...listed, carrierId: deliveryId(sid, from), from, carrierParts: parts }];
}

/** One text's fault must not keep the others back. */
async function takeSafely(line: Line, take: Fetching['take'], text: MissedText): Promise<boolean> {
  try {
    await take(text);
    return true;
  } catch (error) {
    line.log.error({ phone: phoneTail(text.from), fault: faultNote(error) }, 'a missed text was not taken');
    return false;
  }
}

/** Fetches now and every ten minutes; the returned function stops it and waits for the fetching under way. */
export function startFetching(line: Line, fetching: Fetching): () => Promise<void> {
  let wholeSinceMs: number | null = null;
  const fetchOnce = async () => {
    try {
      const startMs = line.clock.nowMs();
      const sinceMs = wholeSinceMs ?? (await newestReceivedMs(line.db));
      const { taken, isWhole } = await fetchMissed(line, fetching, sinceMs);
      wholeSinceMs = isWhole ? startMs : sinceMs;
      if (taken > 0) line.log.info({ taken }, 'missed texts were taken');
    } catch (error) {
      line.log.error({ fault: faultNote(error) }, 'missed texts could not be fetched');
    }
  };
  let underWay = fetchOnce();
  const task = schedule(
    '*/10 * * * *',
    () => {
      underWay = underWay.then(fetchOnce);
      return underWay;
    },
    { noOverlap: true },
  );
  return async () => {
    await task.destroy();
    await underWay;
  };
}
