/** What a carrier tells of a number: that it wants no more texts, or is out of service. */
import type { Trx } from '../store/commit-together.ts';
import { noteConsent } from '../store/consents.ts';
import { purgePhone } from '../store/outbox.ts';
import { findPhone, markGone, markStopped } from '../store/talks.ts';
import type { Line } from './line.ts';

/** Kept as the words of an opt-out that only the carrier has heard. */
const BY_CARRIER = '(told by the carrier)';

/** Keeps it for the number: an opt-out takes back what waits to be sent, and is kept once. */
export async function noteNumber(
  trx: Trx,
  line: Line,
  phone: string,
  news: 'opted-out' | 'gone',
): Promise<void> {
  if (news === 'gone') return markGone(trx, phone);
  if ((await findPhone(trx, phone))?.stopped === 1) return;
  const nowMs = line.clock.nowMs();
  await markStopped(trx, phone, 1);
  await purgePhone(trx, phone, nowMs);
  const kept = { person_id: null, kind: 'stopped', words: BY_CARRIER, lang: null, said_ms: nowMs } as const;
  await noteConsent(trx, { id: line.makeId(), phone, ...kept });
}
