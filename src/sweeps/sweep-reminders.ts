/**
 * Turns reminders whose day has come into texts: one text a phone and local day, in the same transaction that marks
 * them. What was missed while the machine was off is caught up; what is no longer true vanishes.
 */
import type { Day } from '../plan/day.ts';
import { isoDay } from '../plan/day.ts';
import { noteCaution } from '../store/cautions.ts';
import type { Trx } from '../store/commit-together.ts';
import { loadPhone, worldOf } from '../store/load-phone.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { localDay, localMinute } from '../store/local-time.ts';
import { isQueued, queueText } from '../store/outbox.ts';
import { phoneToRemind } from '../store/people.ts';
import {
  type DueReminder,
  dueOfOwner,
  endReminders,
  ownersWithDue,
  postponeReminders,
  replaceReminders,
} from '../store/reminders.ts';
import type { Effect } from '../talk/effect.ts';
import { faultNote, phoneTail } from './fault-note.ts';
import type { Line } from './line.ts';
import { settingOf } from './phone-setting.ts';
import { mayRemind, remindersEndMs } from './quiet-hours.ts';

/** Phones whose reminders are made at once: they share a commit. */
const PHONES_TOGETHER = 32;

/** Parts a reminder may take. */
const REMINDER_PARTS = 1;

/** The moment of one sweep in one scheme. */
interface Round {
  readonly scheme: SchemeEntry;
  readonly nowMs: number;
  readonly today: Day;
  readonly endMs: number;
}

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

/** True when a text was queued. */
async function remindPhone(
  trx: Trx,
  line: Line,
  round: Round,
  phone: string,
  owners: readonly string[],
): Promise<boolean> {
  const due: DueReminder[] = [];
  for (const owner of owners) due.push(...(await dueOfOwner(trx, owner, round.today)));
  const key = `reminder:${phone}:${isoDay(round.today)}`;
  const facts = await loadPhone(trx, phone);
  if (facts.row?.stopped === 1 || (await isQueued(trx, key))) {
    await postponeReminders(trx, due, round.today + 1);
    return false;
  }
  if (due.length === 0) return false;
  const world = worldOf(facts, settingOf(line, round.scheme, round.nowMs));
  const reminders = due.map(({ on, seasonId, activity, why }) => ({ on, seasonId, activity, why }));
  const { effects } = line.talk.remind(world, reminders);
  const text = reminderText(line, effects);
  await endReminders(trx, due, text === '' ? 'untrue' : 'sent');
  await rewrite(trx, line, round, phone, effects);
  if (text === '') return false;
  const queue = { id: line.makeId(), key, phone, text, notBeforeMs: round.nowMs, expiresMs: round.endMs };
  return queueText(trx, queue, round.nowMs);
}

/** One text for the phone; empty when nothing is to be said. */
function reminderText(line: Line, effects: readonly Effect[]): string {
  return effects
    .filter((effect) => effect.do === 'say')
    .map((effect) => line.voice(effect.lang).say(effect.saying, REMINDER_PARTS))
    .join('\n');
}

/** A reminder may only plan new reminders and note cautions: anything else is a fault of the conversation. */
async function rewrite(
  trx: Trx,
  line: Line,
  round: Round,
  phone: string,
  effects: readonly Effect[],
): Promise<void> {
  for (const effect of effects) {
    if (effect.do === 'say') continue;
    if (effect.do === 'remind') {
      const { seasonId, reminders } = effect;
      await replaceReminders(trx, round.scheme.world.id, seasonId, reminders, line.makeId);
    } else if (effect.do === 'cautioned') {
      await noteCaution(trx, phone, effect.activity, round.nowMs);
    } else {
      throw new Error(`a reminder asked for "${effect.do}"`);
    }
  }
}
