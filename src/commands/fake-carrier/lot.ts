/** Chance that is the same for the same seed: a lot is drawn by name, so that it hangs on nothing that was drawn before. */
import { createHash } from 'node:crypto';

/** Draws a number from 0 to less than 1 for a name. */
export type Lot = (name: string) => number;

/** The lots of a seed. */
export function lotsOf(seed: string): Lot {
  return (name) => createHash('sha256').update(`${seed} ${name}`).digest().readUInt32BE(0) / 2 ** 32;
}

/** One of a row, by lot; undefined when the row is empty. */
export function pick<One>(lot: Lot, name: string, row: readonly One[]): One | undefined {
  return row[Math.floor(lot(name) * row.length)];
}
