/** The walk of one text: world, hearing, step, saying and records, all in one transaction; the answer comes after it. */

import { cleanText } from '../store/clean-text.ts';
import type { Trx } from '../store/commit-together.ts';
import { loadPhone, type PhoneFacts, worldOf } from '../store/load-phone.ts';
import { findPhone, keepTalk, type StoredState, talkState } from '../store/talks.ts';
import { answeredBefore, keepText } from '../store/texts-in.ts';
import { groupOf } from '../sweeps/agent-group.ts';
import { faultNote, phoneTail } from '../sweeps/fault-note.ts';
import type { Line } from '../sweeps/line.ts';
import { schemeOf, settingOf } from '../sweeps/phone-setting.ts';
import type { Effect } from '../talk/effect.ts';
import type { Group } from '../talk/group.ts';
import { commitTurn } from './commit-turn.ts';
import { hearText } from './hear-text.ts';

/** A text that came in, checked. */
export interface TextIn {
  /** The carrier's id of this delivery's message: the same id is the same text. */
  readonly carrierId: string;
  /** In E.164 form. */
  readonly from: string;
  readonly text: string;
  /** What the carrier has done and answered itself; nothing is said to it. */
  readonly optOut?: 'stop' | 'start' | 'help';
}

/** Said when the catalogue fails too. */
const OUR_FAULT = 'Something went wrong on our side. Nothing is recorded. Please send it again.';

/** What one step came to. */
interface Outcome {
  readonly state: StoredState | null;
  readonly effects: readonly Effect[];
  readonly lang: string | null;
}

/**
 * Takes the text and returns the answer once everything is durable; null when nothing is to be said. The same delivery
 * again gets the same answer and changes nothing. A fault of the conversation is logged, answered with a short sorry,
 * and leaves no half record. Rejects only when the database itself refuses.
 */
export async function takeText(line: Line, textIn: TextIn): Promise<string | null> {
  try {
    return await line.together((trx) => walk(trx, line, textIn));
  } catch (error) {
    line.log.error(
      { phone: phoneTail(textIn.from), fault: faultNote(error) },
      'a text could not be answered',
    );
    return line.together((trx) => keepFaulty(trx, line, textIn));
  }
}

async function walk(trx: Trx, line: Line, textIn: TextIn): Promise<string | null> {
  const answered = await answeredBefore(trx, textIn.carrierId);
  if (answered !== null) return answered.answer;
  const nowMs = line.clock.nowMs();
  const facts = await loadPhone(trx, textIn.from);
  const scheme = schemeOf(line, facts);
  const [batch, words] = [line.makeId(), cleanText(textIn.text)];
  const turn = (facts.row?.turns ?? 0) + 1;
  const before = talkState(facts.row, line.talk.version, nowMs);
  const group = await groupOf(trx, line, facts, settingOf(line, scheme, nowMs));
  const { state, effects, lang } =
    textIn.optOut === undefined
      ? stepOf(line, facts, before, { batch, words, nowMs, group })
      : optOutOf(textIn.optOut, before);
  const { carrierId, from: phone } = textIn;
  const cause = { batch, phone, turn, nowMs, schemeId: scheme.world.id, words, lang };
  return commitTurn(trx, line, { carrierId, state, effects, cause, lastLang: facts.row?.lang ?? null });
}

function stepOf(
  line: Line,
  facts: PhoneFacts,
  before: StoredState | null,
  { batch, words, nowMs, group }: { batch: string; words: string; nowMs: number; group: Group | null },
): Outcome {
  const scheme = schemeOf(line, facts);
  const setting = settingOf(line, scheme, nowMs);
  const { lang, heard, details } = hearText(line, words, setting.today, facts, scheme, group);
  const event = { kind: 'text', batch, text: words, lang, heard, details } as const;
  const world = worldOf(facts, setting);
  return { ...line.talk.step(before, event, group ? { ...world, group } : world), lang };
}

/** The carrier has done it and has answered: we follow, and say nothing. */
function optOutOf(optOut: NonNullable<TextIn['optOut']>, before: StoredState | null): Outcome {
  if (optOut === 'help') return { state: before, effects: [], lang: null };
  return { state: null, effects: [{ do: optOut }], lang: null };
}

/** Keeps the text and its sorry, so that the same delivery again gets the same answer; the conversation starts anew. */
async function keepFaulty(trx: Trx, line: Line, textIn: TextIn): Promise<string | null> {
  const before = await answeredBefore(trx, textIn.carrierId);
  if (before !== null) return before.answer;
  const phone = textIn.from;
  const row = await findPhone(trx, phone);
  const turn = (row?.turns ?? 0) + 1;
  const answer = row?.stopped === 1 ? null : sorry(line, row?.lang ?? null);
  await keepTalk(trx, phone, turn, row?.lang ?? null, null);
  await keepText(trx, {
    id: line.makeId(),
    carrier_id: textIn.carrierId,
    phone,
    turn,
    body: cleanText(textIn.text),
    received_ms: line.clock.nowMs(),
    answer,
    faulty: 1,
  });
  return answer;
}

function sorry(line: Line, lang: string | null): string {
  try {
    const voice = line.voice(lang ?? line.schemes()[0]?.world.languages[0] ?? '');
    return voice.say({ sentences: [{ key: 'fault.ours' }] });
  } catch {
    return OUR_FAULT;
  }
}
