/** One piece of a broadcast, and the instants that hold for it. */

import type { KeptBroadcast } from '../store/broadcasts.ts';
import type { Trx } from '../store/commit-together.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import type { NewText } from '../store/outbox.ts';
import { afterQuietMs } from './quiet-hours.ts';

/** Parts that a text of a broadcast, or about one, may take. */
export const BROADCAST_PARTS = 3;

/** What is to be queued in one transaction. */
export interface Piece {
  readonly texts: readonly NewText[];
  /** The phone or person that it ends with; null when nothing is left. */
  readonly nextAfter: string | null;
}

/** When a piece is queued, and the first instant at which its texts may go out. */
export interface PieceTimes {
  readonly nowMs: number;
  readonly notBeforeMs: number;
  readonly timeZone: string;
}

/** Makes the piece after the one that the broadcast has come to; run it in the transaction that queues it. */
export type NextPiece = (trx: Trx, broadcast: KeptBroadcast, times: PieceTimes) => Promise<Piece>;

/** The instants of a piece that is queued now. */
export function pieceTimes(nowMs: number, { settings, timeZone }: SchemeEntry): PieceTimes {
  return { nowMs, notBeforeMs: afterQuietMs(nowMs, settings.quiet, timeZone), timeZone };
}
