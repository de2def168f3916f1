/** Once a week each agent is told how the blocks are; a week's text that was missed goes out within two days. */
import { type Day, isoDay, weekdayOf } from '../plan/day.ts';
import type { Trx } from '../store/commit-together.ts';
import { loadPhone, worldOf } from '../store/load-phone.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { localDay, localMinute } from '../store/local-time.ts';
import { isQueued, queueText } from '../store/outbox.ts';
import { agentPhones } from '../store/people.ts';
import { AGENT_PARTS } from '../talk/turn.ts';
import { groupOf } from './agent-group.ts';
import { faultNote, phoneTail } from './fault-note.ts';
import type { Line } from './line.ts';
import { settingOf } from './phone-setting.ts';
import { mayRemind, newsEndMs } from './quiet-hours.ts';

const WEEK = 7;
const CAUGHT_UP_DAYS = 2;
const MONDAY = 1;

/** Queues the digests that are due; returns how many. Faults are logged. */
export async function sweepDigests(line: Line): Promise<number> {
  let queued = 0;
  const nowMs = line.clock.nowMs();
  for (const scheme of line.schemes()) {
    const { settings, timeZone, world } = scheme;
    const due = digestDay(localDay(nowMs, timeZone), settings.digestOn ?? MONDAY);
    if (due === null || !mayRemind(localMinute(nowMs, timeZone), settings)) continue;
    for (const phone of await agentPhones(line.db, world.id))
      if (await digestSafely(line, scheme, phone, due)) queued += 1;
  }
  return queued;
}

/** The newest day of the weekday, when it is not long past. `digestDay` of a Wednesday and 1 is the Monday before. */
export function digestDay(today: Day, weekday: number): Day | null {
  const ago = (weekdayOf(today) - weekday + WEEK) % WEEK;
  return ago <= CAUGHT_UP_DAYS ? today - ago : null;
}

async function digestSafely(line: Line, scheme: SchemeEntry, phone: string, due: Day): Promise<boolean> {
  const key = `digest:${phone}:${isoDay(due)}`;
  try {
    if (await isQueued(line.db, key)) return false;
    return await line.together((trx) => digestPhone(trx, line, scheme, phone, key));
  } catch (error) {
    line.log.error({ phone: phoneTail(phone), fault: faultNote(error) }, 'a digest could not be made');
    return false;
  }
}

async function digestPhone(
  trx: Trx,
  line: Line,
  scheme: SchemeEntry,
  phone: string,
  key: string,
): Promise<boolean> {
  const nowMs = line.clock.nowMs();
  const setting = settingOf(line, scheme, nowMs);
  const facts = await loadPhone(trx, phone);
  const group = await groupOf(trx, line, facts, setting);
  if (!group || facts.row?.stopped === 1) return false;
  const saying = line.talk.digest({ ...worldOf(facts, setting), group });
  if (!saying) return false;
  const lang = facts.people.find(({ role }) => role === 'agent')?.lang ?? '';
  const text = line.voice(lang).say(saying, AGENT_PARTS);
  const row = { id: line.makeId(), key, phone, text, notBeforeMs: nowMs, expiresMs: newsEndMs(nowMs) };
  return queueText(trx, row, nowMs, scheme.settings.pricePerPart ?? null);
}
