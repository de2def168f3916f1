/** The memory that is truly in use: what a full collection leaves. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Megabytes of the heap that a full collection leaves. */
export function heapInUse(): number {
  collect();
  return process.memoryUsage().heapUsed / 1e6;
}
