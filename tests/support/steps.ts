/** Counts the steps that code takes: how often its blocks run, as V8 counts them. The same on a slow and on a busy machine. */
import { Session } from 'node:inspector/promises';

export interface StepCounter {
  /** Steps in files whose path holds `path` during a run. */
  count(path: string, run: () => void): Promise<number>;
  close(): Promise<void>;
}

/** Code must be loaded after the counter is opened: what was compiled before is counted only in part. */
export async function openStepCounter(): Promise<StepCounter> {
  const session = new Session();
  session.connect();
  await session.post('Profiler.enable');
  await session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
  const taken = async (path: string) => {
    const { result } = await session.post('Profiler.takePreciseCoverage');
    const functions = result.filter(({ url }) => url.includes(path)).flatMap((script) => script.functions);
    return functions.flatMap(({ ranges }) => ranges).reduce((sum, { count }) => sum + count, 0);
  };
  return {
    count: async (path, run) => {
      await taken(path);
      run();
      return taken(path);
    },
    close: async () => {
      await session.post('Profiler.stopPreciseCoverage');
      session.disconnect();
    },
  };
}
