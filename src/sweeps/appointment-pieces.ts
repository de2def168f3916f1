/** Pieces of a broadcast of appointments: a text for each owner about his or her own plots, and their reminders anew. */
import { type Appointed, appointedOf, ownersAfter } from '../store/appointed.ts';
import { keyPrefix } from '../store/broadcast-texts.ts';
import type { KeptBroadcast } from '../store/broadcasts.ts';
import type { Trx } from '../store/commit-together.ts';
import type { NewText } from '../store/outbox.ts';
import { firstPhone, phoneToRemind } from '../store/people.ts';
import { BROADCAST_PARTS, type NextPiece, type PieceTimes } from './broadcast-piece.ts';
import { faultNote } from './fault-note.ts';
import { plannedPhone, writePlanned } from './first-reminders.ts';
import type { Line } from './line.ts';
import { visitsEndMs } from './quiet-hours.ts';

/** People of one piece: their plots are planned anew, which takes longer than their texts. */
const PEOPLE_TOGETHER = 100;

/** People found at once: finding some sorts all that are left. */
const PEOPLE_AHEAD = 2000;

/** Makes the pieces of one broadcast, one after the other; remembers whom it has found. */
export function appointmentPieces(line: Line): NextPiece {
  let ahead: { after: string; people: readonly string[] } = { after: '', people: [] };
  return async (trx, broadcast, times) => {
    const { id, head, nextAfter: after } = broadcast;
    if (head.kind === 'words') throw new Error('words have no appointments');
    // Another sweep may have queued what was found here, or the piece before was taken back.
    if (ahead.people.length === 0 || ahead.after !== after)
      ahead = { after, people: await ownersAfter(trx, id, after, PEOPLE_AHEAD) };
    const some = ahead.people.slice(0, PEOPLE_TOGETHER);
    const last = some.at(-1) ?? null;
    ahead = { after: last ?? after, people: ahead.people.slice(PEOPLE_TOGETHER) };
    const texts: NewText[] = [];
    const planned = new Set<string>();
    for (const person of await appointedOf(trx, id, head.kind, some)) {
      const phone = await phoneToRemind(trx, person.personId);
      const text = phone === null ? null : textFor(line, broadcast, person, phone, times);
      if (text !== null) texts.push(text);
      const any = phone ?? (await firstPhone(trx, person.personId));
      if (any !== null && !planned.has(any)) await planSafely(trx, line, any);
      if (any !== null) planned.add(any);
    }
    return { texts, nextAfter: last };
  };
}

/** Null, and a line in the log, when the text cannot be made: one person's fault must not keep the others' texts back. */
function textFor(
  line: Line,
  { id, head }: KeptBroadcast,
  { personId, name, lang, plots }: Appointed,
  phone: string,
  { notBeforeMs, timeZone }: PieceTimes,
): NewText | null {
  try {
    const saying = line.talk.broadcast(head, { name, lang, plots });
    return {
      id: line.makeId(),
      key: `${keyPrefix(id)}${phone}:${personId}`,
      phone,
      text: line.voice(lang).say(saying, BROADCAST_PARTS),
      notBeforeMs,
      expiresMs: visitsEndMs(
        plots.map(({ visit }) => visit),
        notBeforeMs,
        timeZone,
      ),
    };
  } catch (error) {
    line.log.error({ broadcast: id, fault: faultNote(error) }, 'a text of a broadcast could not be made');
    return null;
  }
}

/** The reminders stay as they were where planning fails. */
async function planSafely(trx: Trx, line: Line, phone: string): Promise<void> {
  const planned = await plannedPhone(trx, line, phone).catch((error: unknown) => {
    line.log.error({ fault: faultNote(error) }, 'a phone could not be planned for a broadcast');
    return null;
  });
  if (planned !== null) await writePlanned(trx, planned);
}
