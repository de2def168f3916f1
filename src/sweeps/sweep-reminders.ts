/**
 * Turns reminders whose day has come into texts, phone by phone. What was missed while the machine was off is caught
 * up; the cost follows what is due, not how many plots there are.
 */
import { localDay, localMinute } from '../store/local-time.ts';
import { phoneToRemind } from '../store/people.ts';
import { dueOfOwner, ownersWithDue, postponeReminders } from '../store/reminders.ts';
import { faultNote, phoneTail } from './fault-note.ts';
import type { Line } from './line.ts';
import { mayRemind, remindersEndMs } from './quiet-hours.ts';
import { type Round, remindPhone } from './remind-phone.ts';

/** Phones whose reminders are made at once: they share a commit. */
const PHONES_TOGETHER = 32;

/** Queues what is due in every scheme whose hour has come; returns how many texts were queued. Faults are logged. */
export async function sweepReminders(line: Line): Promise<number> {
  let queued = 0;
  const nowMs = line.clock.nowMs();
  for (const scheme of line.schemes()) {
    const { timeZone, settings } = scheme;
    const minute = localMinute(nowMs, timeZone);
    if (!mayRemind(minute, settings)) continue;
    const today = localDay(nowMs, timeZone);
    queued += await sweepScheme(line, {
      scheme,
      nowMs,
      today,
      endMs: remindersEndMs(today, minute, settings, timeZone),
    });
  }
  return queued;
}

async function sweepScheme(line: Line, round: Round): Promise<number> {
  const owners = await ownersWithDue(line.db, round.scheme.world.id, round.today);
  const phones = await ownersByPhone(line, owners, round);
  let queued = 0;
  for (let at = 0; at < phones.length; at += PHONES_TOGETHER) {
    const some = phones.slice(at, at + PHONES_TOGETHER);
    const results = await Promise.all(some.map(([phone, ids]) => remindSafely(line, round, phone, ids)));
    queued += results.filter((sent) => sent).length;
  }
  return queued;
}

/** People with something due, under the phone that gets their reminders; those without one are looked at tomorrow. */
async function ownersByPhone(line: Line, owners: readonly string[], round: Round) {
  const byPhone = new Map<string, string[]>();
  for (const owner of owners) {
    const phone = await phoneToRemind(line.db, owner);
    if (phone === null) {
      await line.together(async (trx) => {
        await postponeReminders(trx, await dueOfOwner(trx, owner, round.today), round.today + 1);
      });
      continue;
    }
    byPhone.set(phone, [...(byPhone.get(phone) ?? []), owner]);
  }
  return [...byPhone];
}

/** One phone's fault must not keep the others' reminders back. */
async function remindSafely(
  line: Line,
  round: Round,
  phone: string,
  owners: readonly string[],
): Promise<boolean> {
  try {
    return await line.together((trx) => remindPhone(trx, line, round, phone, owners));
  } catch (error) {
    line.log.error({ phone: phoneTail(phone), fault: faultNote(error) }, 'a reminder could not be made');
    return false;
  }
}
