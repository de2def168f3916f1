/** One phone's reminders of the day: one text, in the same transaction that marks them; what is untrue vanishes. */
import type { Day } from '../plan/day.ts';
import { isoDay } from '../plan/day.ts';
import { noteCaution } from '../store/cautions.ts';
import type { Trx } from '../store/commit-together.ts';
import { isInDoubt, loadPhone, type PhoneFacts, screenLang, worldOf } from '../store/load-phone.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { isQueued, queueText } from '../store/outbox.ts';
import { dueOfOwner, endReminders, postponeReminders, replaceReminders } from '../store/reminders.ts';
import { keepQuestion, vouchFor } from '../store/talks.ts';
import type { Effect, Reminder } from '../talk/effect.ts';
import type { World } from '../talk/world.ts';
import type { Line } from './line.ts';
import { settingOf } from './phone-setting.ts';

/** Parts a reminder may take. */
const REMINDER_PARTS = 1;
/** Parts that the question whose phone it is may take. */
const QUESTION_PARTS = 2;
/** A number in doubt is asked anew after so many days. */
const DAYS_BETWEEN_ASKING = 7;

/** The moment of one sweep in one scheme. */
export interface Round {
  readonly scheme: SchemeEntry;
  readonly nowMs: number;
  readonly today: Day;
  readonly endMs: number;
}

/** Queues the phone's one text of the day about what is due to these people; true when one was queued. */
export async function remindPhone(
  trx: Trx,
  line: Line,
  round: Round,
  phone: string,
  owners: readonly string[],
): Promise<boolean> {
  const due: Reminder[] = [];
  for (const owner of owners) due.push(...(await dueOfOwner(trx, owner, round.today)));
  const key = `reminder:${phone}:${isoDay(round.today)}`;
  const facts = await loadPhone(trx, phone);
  if (facts.row?.stopped === 1 || (await isQueued(trx, key))) {
    await postponeReminders(trx, due, round.today + 1);
    return false;
  }
  if (due.length === 0) return false;
  const world = worldOf(facts, settingOf(line, round.scheme, round.nowMs));
  if (isInDoubt(facts, round.nowMs)) {
    await postponeReminders(trx, due, round.today + 1);
    return askWhosePhone(trx, line, round, facts, world);
  }
  if (facts.row?.vouched_ms === null) await vouchFor(trx, phone, round.nowMs);
  const { effects } = line.talk.remind(world, due);
  const text = reminderText(line, effects);
  await endReminders(trx, due, text === '' ? 'untrue' : 'sent');
  await rewrite(trx, round, phone, withoutEnded(effects, due));
  if (text === '') return false;
  const queue = { id: line.makeId(), key, phone, text, notBeforeMs: round.nowMs, expiresMs: round.endMs };
  return queueText(trx, queue, round.nowMs, round.scheme.settings.pricePerPart ?? null);
}

/** Asks once in some days, before anything else is said to the number. */
async function askWhosePhone(
  trx: Trx,
  line: Line,
  { today, nowMs, endMs, scheme }: Round,
  facts: PhoneFacts,
  world: World,
): Promise<boolean> {
  const phone = facts.number;
  const key = `whose:${phone}:${Math.floor(today / DAYS_BETWEEN_ASKING)}`;
  if (await isQueued(trx, key)) return false;
  const { state, effects } = line.talk.askWhose(world, screenLang(facts));
  await keepQuestion(trx, phone, state);
  const text = reminderText(line, effects, QUESTION_PARTS);
  const queue = { id: line.makeId(), key, phone, text, notBeforeMs: nowMs, expiresMs: endMs };
  return queueText(trx, queue, nowMs, scheme.settings.pricePerPart ?? null);
}

/** One text for the phone; empty when nothing is to be said. */
function reminderText(line: Line, effects: readonly Effect[], parts = REMINDER_PARTS): string {
  return effects
    .filter((effect) => effect.do === 'say')
    .map((effect) => line.voice(effect.lang).say(effect.saying, parts))
    .join('\n');
}

/** What was found untrue today is not looked at again today, even when the new plan names it once more. */
function withoutEnded(effects: readonly Effect[], ended: readonly Reminder[]): readonly Effect[] {
  const nameOf = ({ seasonId, activity, why, on }: Reminder) => [seasonId, activity, why, on].join(' ');
  const names = new Set(ended.map(nameOf));
  return effects.map((effect) =>
    effect.do === 'remind'
      ? { ...effect, reminders: effect.reminders.filter((reminder) => !names.has(nameOf(reminder))) }
      : effect,
  );
}

/** A reminder may only plan new reminders and note cautions: anything else is a fault of the conversation. */
async function rewrite(trx: Trx, round: Round, phone: string, effects: readonly Effect[]): Promise<void> {
  for (const effect of effects) {
    if (effect.do === 'say') continue;
    if (effect.do === 'remind') {
      const { seasonId, reminders } = effect;
      await replaceReminders(trx, round.scheme.world.id, seasonId, reminders);
    } else if (effect.do === 'cautioned') {
      await noteCaution(trx, phone, effect.activity, round.nowMs);
    } else {
      throw new Error(`a reminder asked for "${effect.do}"`);
    }
  }
}
