/** Hands what was confirmed on screens to the conversation, and keeps what comes of it exactly as for a text. */
import type { Trx } from '../../store/commit-together.ts';
import { type PhoneFacts, screenLang, worldOf } from '../../store/load-phone.ts';
import type { SchemeEntry } from '../../store/load-schemes.ts';
import { queueText } from '../../store/outbox.ts';
import { type StoredState, vouchedNow } from '../../store/talks.ts';
import { SCREEN_IDS } from '../../store/texts-in.ts';
import type { Line } from '../../sweeps/line.ts';
import type { Cause } from '../../sweeps/perform.ts';
import { schemeOf, settingOf } from '../../sweeps/phone-setting.ts';
import { newsEndMs } from '../../sweeps/quiet-hours.ts';
import type { Effect } from '../../talk/effect.ts';
import { eventOfReadings } from '../../talk/event-of-readings.ts';
import { answerScreen } from '../../talk/screens/answer.ts';
import type { Entry, Screen } from '../../talk/screens/screen.ts';
import type { TalkState } from '../../talk/state.ts';
import { commitTurn } from '../commit-turn.ts';

/** The phone before the step. */
export interface Before {
  readonly facts: PhoneFacts;
  readonly before: StoredState | null;
  readonly nowMs: number;
}

/** The screen with the conversation's answer, and the language that it is in. */
export async function carryOut(
  trx: Trx,
  line: Line,
  { facts, before, nowMs }: Before,
  entry: Entry,
): Promise<{ readonly screen: Screen; readonly lang: string }> {
  const scheme = schemeOf(line, facts);
  const [batch, turn, phone] = [line.makeId(), (facts.row?.turns ?? 0) + 1, facts.number];
  const lang = screenLang(facts);
  const event = eventOfReadings({ ...entry, batch, text: entry.words, lang });
  const { state, effects } = line.talk.step(before, event, worldOf(facts, settingOf(line, scheme, nowMs)));
  const cause = { batch, phone, turn, nowMs, schemeId: scheme.world.id, words: entry.words, lang };
  // What is shown on a screen is no text: it has no parts and no price.
  const delivery = { carrier_id: `${SCREEN_IDS}${batch}`, received_ms: nowMs, answer_queued: 1 } as const;
  const kept = {
    delivery,
    price: null,
    state,
    effects,
    cause,
    lastLang: facts.row?.lang ?? null,
    vouchedMs: vouchedNow(facts.row, nowMs),
  };
  const answer = (await commitTurn(trx, line, kept)) ?? '';
  if (facts.row?.stopped !== 1) await confirmByText(trx, line, scheme, effects, cause, answer);
  const said = effects.find((effect) => effect.do === 'say');
  return { screen: answerScreen(answer, state as TalkState | null), lang: said?.lang ?? lang };
}

/** Where the scheme wants it, what was recorded is told by a text too: it answers the person's own dial, at any hour. */
async function confirmByText(
  trx: Trx,
  line: Line,
  { settings }: SchemeEntry,
  effects: readonly Effect[],
  { batch, phone, nowMs }: Cause,
  text: string,
): Promise<void> {
  const recorded = effects.some((effect) => effect.do === 'record');
  if (settings.textAfterScreens !== true || !recorded) return;
  const row = { id: line.makeId(), key: `screen:${batch}`, phone, text };
  const times = { notBeforeMs: nowMs, expiresMs: newsEndMs(nowMs) };
  await queueText(trx, { ...row, ...times }, nowMs, settings.pricePerPart ?? null);
}
