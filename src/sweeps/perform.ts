/** Does what a conversation asked for, inside the transaction of its text or reminder. */

import { noteAct } from '../store/agent-acts.ts';
import { keepBroadcast } from '../store/broadcasts.ts';
import { noteCaution } from '../store/cautions.ts';
import type { Trx } from '../store/commit-together.ts';
import { noteConsent } from '../store/consents.ts';
import { forgetPerson } from '../store/forget.ts';
import { joinGrower } from '../store/join.ts';
import { purgePhone, queueText } from '../store/outbox.ts';
import { renamePerson, setLanguage } from '../store/people.ts';
import { keepOffer, linkPhone, releasePhone, unlinkPhone } from '../store/phone-links.ts';
import { replaceReminders } from '../store/reminders.ts';
import { addRain, addReport, type Bringer, undoReports } from '../store/reports.ts';
import { changeSeason } from '../store/seasons.ts';
import type { ConsentsTable } from '../store/tables.ts';
import { findPhone, markStopped, vouchFor } from '../store/talks.ts';
import { noteTrouble } from '../store/troubles.ts';
import type { Effect } from '../talk/effect.ts';
import type { Line } from './line.ts';
import { changeAndPlan } from './people-changed.ts';
import { afterQuietMs, newsEndMs } from './quiet-hours.ts';

/** The text that an effect comes from, and the scheme that it is said in. */
export interface Cause extends Bringer {
  readonly schemeId: string;
  readonly words: string;
  readonly lang: string | null;
}

/** Performs the effects in their order, forgetting last; `say` is left to the caller. Throws when a row is refused. */
export async function performEffects(
  trx: Trx,
  line: Line,
  effects: readonly Effect[],
  cause: Cause,
): Promise<void> {
  const last = effects.filter((effect) => effect.do === 'forget');
  const first = effects.filter((effect) => effect.do !== 'forget');
  for (const effect of [...first, ...last]) await performEffect(trx, line, effect, cause);
}

async function performEffect(trx: Trx, line: Line, effect: Effect, cause: Cause): Promise<void> {
  const { makeId } = line;
  switch (effect.do) {
    case 'say':
      return;
    case 'record':
      return addReport(trx, makeId(), effect.report, cause);
    case 'record-rain':
      return addRain(trx, makeId(), effect.rain, cause);
    case 'undo':
      return undoReports(trx, effect.reports, cause);
    case 'remind':
      return replaceReminders(trx, cause.schemeId, effect.seasonId, effect.reminders);
    case 'note-trouble':
      return noteTrouble(trx, makeId(), effect, cause);
    case 'join':
      return joinGrower(trx, cause.schemeId, effect.joiner, cause, makeId);
    case 'rename':
      return renamePerson(trx, effect.personId, effect.name);
    case 'set-language':
      return setLanguage(trx, effect.personId, effect.lang);
    case 'change-season':
      return changeSeason(trx, effect.seasonId, effect.change);
    case 'stop':
    case 'start':
      return switchTexts(trx, line, effect.do, cause);
    case 'forget':
      return forgetPerson(trx, effect.personId, cause.batch);
    case 'offer-phone':
      return keepOffer(trx, makeId(), effect, cause.phone);
    case 'link-phone':
      await linkPhone(trx, effect.offerId, effect.personId, cause.phone);
      return noteOf(trx, line, cause, 'tied', effect.personId);
    case 'unlink-phone':
      return unlinkPhone(trx, effect.personId, effect.phone);
    case 'vouch':
      return vouchFor(trx, cause.phone, cause.nowMs);
    case 'release-phone':
      await releasePhone(trx, cause.phone);
      return noteOf(trx, line, cause, 'let-go', null);
    case 'broadcast':
      return keepBroadcast(trx, makeId(), effect.broadcast, cause);
    case 'text':
      return queueNow(trx, line, effect, cause);
    case 'change-people':
      return changeAndPlan(trx, line, cause.schemeId, effect.change);
    case 'note-act':
      return noteAct(trx, makeId(), effect, cause);
    case 'cautioned':
      return noteCaution(trx, cause.phone, effect.activity, cause.nowMs);
  }
}

/** Opt-out and opt-in: for the number, with the words kept; an opt-out takes back what waits to be sent. */
async function switchTexts(trx: Trx, line: Line, which: 'stop' | 'start', cause: Cause): Promise<void> {
  await markStopped(trx, cause.phone, which === 'stop' ? 1 : 0);
  if (which === 'stop') await purgePhone(trx, cause.phone, cause.nowMs);
  await noteOf(trx, line, cause, which === 'stop' ? 'stopped' : 'started', null);
}

/** Keeps who wanted what for the number, in which words. */
async function noteOf(
  trx: Trx,
  line: Line,
  { phone, words, lang, nowMs }: Cause,
  kind: ConsentsTable['kind'],
  personId: string | null,
): Promise<void> {
  const said = { phone, person_id: personId, kind, words, lang, said_ms: nowMs };
  await noteConsent(trx, { id: line.makeId(), ...said });
}

/** A text to another phone of the scheme, unless it wants none; at night it waits for the morning. */
async function queueNow(
  trx: Trx,
  line: Line,
  { phone, lang, saying }: Extract<Effect, { do: 'text' }>,
  { batch, nowMs, schemeId }: Cause,
): Promise<void> {
  if ((await findPhone(trx, phone))?.stopped === 1) return;
  const scheme = line.schemes().find(({ world }) => world.id === schemeId);
  const notBeforeMs = scheme ? afterQuietMs(nowMs, scheme.settings.quiet, scheme.timeZone) : nowMs;
  const text = line.voice(lang).say(saying);
  const row = { id: line.makeId(), key: `text:${batch}:${phone}`, phone, text };
  const price = scheme?.settings.pricePerPart ?? null;
  await queueText(trx, { ...row, notBeforeMs, expiresMs: newsEndMs(notBeforeMs) }, nowMs, price);
}
