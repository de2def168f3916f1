/** Runs the sweeps every minute. The tick only asks what is due: a tick that was missed is caught up by the next. */
import { schedule } from 'node-cron';
import { faultNote } from './fault-note.ts';
import type { Line } from './line.ts';
import { sweepOnce } from './sweep-once.ts';

/** Starts the sweeps; the returned function stops them and waits for the one under way. */
export function startSweeps(line: Line): () => Promise<void> {
  let underWay = Promise.resolve();
  const sweep = async () => {
    try {
      const swept = await sweepOnce(line);
      if (Object.values(swept).some((count) => count > 0)) line.log.info(swept, 'swept');
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
