/** All sweeps in their order: what is due is queued, what is queued is sent, what was sent is told of. */
import type { Line } from './line.ts';
import { sweepBroadcasts } from './sweep-broadcasts.ts';
import { sweepDeliveries } from './sweep-deliveries.ts';
import { sweepDigests } from './sweep-digests.ts';
import { sweepOutbox } from './sweep-outbox.ts';
import { sweepReminders } from './sweep-reminders.ts';

/** How many texts came of each sweep. */
export interface Swept {
  readonly reminders: number;
  readonly digests: number;
  readonly broadcast: number;
  readonly handed: number;
  readonly told: number;
}

/** Sweeps once; rejects only when the database does. */
export async function sweepOnce(line: Line): Promise<Swept> {
  const reminders = await sweepReminders(line);
  const digests = await sweepDigests(line);
  const broadcast = await sweepBroadcasts(line);
  const handed = await sweepOutbox(line);
  const told = await sweepDeliveries(line);
  return { reminders, digests, broadcast, handed, told };
}
