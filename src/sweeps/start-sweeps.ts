/** Runs the sweeps every minute. The tick only asks what is due: a tick that was missed is caught up by the next. */
import { schedule } from 'node-cron';
import { faultNote } from './fault-note.ts';
import type { Line } from './line.ts';
import { sweepBroadcasts } from './sweep-broadcasts.ts';
import { sweepDeliveries } from './sweep-deliveries.ts';
import { sweepDigests } from './sweep-digests.ts';
import { sweepOutbox } from './sweep-outbox.ts';
import { sweepReminders } from './sweep-reminders.ts';

/** Starts the sweeps; the returned function stops them and waits for the one under way. */
export function startSweeps(line: Line): () => Promise<void> {
  let underWay = Promise.resolve();
  const sweep = async () => {
    try {
      const queued = await sweepReminders(line);
      const digests = await sweepDigests(line);
      const broadcast = await sweepBroadcasts(line);
      const handed = await sweepOutbox(line);
      const told = await sweepDeliveries(line);
      if (queued + digests + broadcast + handed + told > 0)
        line.log.info({ queued, digests, broadcast, handed, told }, 'swept');
    } catch (error) {
      line.log.error({ fault: faultNote(error) }, 'a sweep failed');
    }
  };
  const task = schedule(
    '* * * * *',
    () => {
      underWay = sweep();
      return underWay;
    },
    { noOverlap: true },
  );
  return async () => {
    await task.destroy();
    await underWay;
  };
}
