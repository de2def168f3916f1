/** Keeps a sender within the parts that its number may send in a second. */
import { setTimeout as wait } from 'node:timers/promises';

/** Gives every text its turn, in the order in which they ask. */
export interface Pace {
  /** Resolves when a text of so many parts may go. */
  turn(parts: number): Promise<void>;
}

/** A pace of so many parts a second; null does not hold anything back. */
export function sendingPace(partsPerSecond: number | null): Pace {
  let freeMs = 0;
  return {
    turn: async (parts) => {
      if (partsPerSecond === null) return;
      const nowMs = performance.now();
      const startMs = Math.max(nowMs, freeMs);
      freeMs = startMs + (parts * 1000) / partsPerSecond;
      if (startMs > nowMs) await wait(startMs - nowMs);
    },
  };
}
