/**
 * Turns broadcasts into texts, piece by piece. A piece and how far it has come are one transaction: wherever the process is
 * killed, the next sweep goes on behind the last piece that was committed.
 */
import { setImmediate } from 'node:timers/promises';
import { holdBack } from '../store/broadcast-texts.ts';
import {
  broadcastsIn,
  endQueuing,
  findBroadcast,
  type KeptBroadcast,
  moveQueuing,
} from '../store/broadcasts.ts';
import type { Trx } from '../store/commit-together.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { queueTexts } from '../store/outbox.ts';
import { appointmentPieces } from './appointment-pieces.ts';
import { type NextPiece, pieceTimes } from './broadcast-piece.ts';
import { faultNote } from './fault-note.ts';
import type { Line } from './line.ts';
import { afterQuietMs } from './quiet-hours.ts';
import { wordsPieces } from './words-pieces.ts';

/** Queues every broadcast that is not queued yet; returns how many texts were queued. Faults are logged. */
export async function sweepBroadcasts(line: Line): Promise<number> {
  let queued = 0;
  for (const id of await broadcastsIn(line.db, 'sending'))
    await safely(line, id, () => holdBackQuiet(line, id));
  for (const id of await broadcastsIn(line.db, 'queuing')) {
    await safely(line, id, async () => {
      await holdBackQuiet(line, id);
      const next: Record<'words' | 'appointments', NextPiece> = {
        words: wordsPieces(line),
        appointments: appointmentPieces(line),
      };
      for (let isLast = false; !isLast; ) {
        const piece = await line.together((trx) => queuePiece(trx, line, id, next));
        queued += piece.texts;
        isLast = piece.isLast;
        // Texts that came in meanwhile are answered between two pieces.
        await setImmediate();
      }
    });
  }
  return queued;
}

/** The scheme of a broadcast. Throws when the line does not have it. */
export function schemeOfBroadcast(line: Line, { schemeId }: KeptBroadcast): SchemeEntry {
  const scheme = line.schemes().find(({ world }) => world.id === schemeId);
  if (scheme === undefined) throw new Error('a broadcast belongs to a scheme that is not there');
  return scheme;
}

async function queuePiece(
  trx: Trx,
  line: Line,
  id: string,
  next: Record<'words' | 'appointments', NextPiece>,
): Promise<{ readonly texts: number; readonly isLast: boolean }> {
  const broadcast = await findBroadcast(trx, id);
  if (broadcast?.state !== 'queuing') return { texts: 0, isLast: true };
  const scheme = schemeOfBroadcast(line, broadcast);
  const times = pieceTimes(line.clock.nowMs(), scheme);
  const nextPiece = broadcast.head.kind === 'words' ? next.words : next.appointments;
  const { texts, nextAfter } = await nextPiece(trx, broadcast, times);
  await queueTexts(trx, texts, times.nowMs, scheme.settings.pricePerPart ?? null);
  if (nextAfter === null) await endQueuing(trx, id, times.nowMs);
  else await moveQueuing(trx, id, nextAfter);
  return { texts: texts.length, isLast: nextAfter === null };
}

/** A broadcast that takes hours to send, or a text that is tried again, may have come into the quiet hours. */
async function holdBackQuiet(line: Line, id: string): Promise<void> {
  const broadcast = await findBroadcast(line.db, id);
  if (broadcast === null) return;
  const { settings, timeZone } = schemeOfBroadcast(line, broadcast);
  const nowMs = line.clock.nowMs();
  const untilMs = afterQuietMs(nowMs, settings.quiet, timeZone);
  if (untilMs > nowMs) await line.together((trx) => holdBack(trx, id, untilMs));
}

/** One broadcast's fault must not keep the others back. */
async function safely(line: Line, id: string, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    line.log.error({ broadcast: id, fault: faultNote(error) }, 'a broadcast could not be queued');
  }
}
