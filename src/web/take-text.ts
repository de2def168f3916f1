/** The walk of one text: world, hearing, step, saying and records, all in one transaction; the answer comes after it. */

import { cleanText } from '../store/clean-text.ts';
import type { Trx } from '../store/commit-together.ts';
import { loadPhone, type PhoneFacts, worldOf } from '../store/load-phone.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { ownTexts } from '../store/own-texts.ts';
import { peopleOfPhone } from '../store/people.ts';
import { findPhone, keepTalk, type StoredState, talkState, vouchedNow } from '../store/talks.ts';
import { answeredBefore, keepText, sorriesSince, textedSince } from '../store/texts-in.ts';
import { groupOf } from '../sweeps/agent-group.ts';
import { faultNote, phoneTail } from '../sweeps/fault-note.ts';
import type { Line } from '../sweeps/line.ts';
import { schemeOf, settingOf } from '../sweeps/phone-setting.ts';
import type { Group } from '../talk/group.ts';
import { mayBeOwn } from '../talk/own-text.ts';
import { commitTurn } from './commit-turn.ts';
import { hearText, languagesOf } from './hear-text.ts';
import { latelyTold, queueReply } from './late-text.ts';
import { linkingOf } from './linking.ts';
import type { Outcome } from './outcome.ts';

/** A text that came in, checked. */
export interface TextIn {
  /** The carrier's id of this delivery's message: the same id is the same text. */
  readonly carrierId: string;
  /** In E.164 form. */
  readonly from: string;
  readonly text: string;
  /** Parts as the carrier counted them. */
  readonly carrierParts?: number | null;
  /** The carrier's mark of this delivery with the sender: a request that comes again has the same, whatever its id. */
  readonly deliveryToken?: string | null;
  /** It came with pictures or sound: only its words are heard. */
  readonly hasMedia?: boolean;
  /** When it was sent, of a text that no webhook brought: it is walked as of then, and its answer goes by the outbox. */
  readonly sentMs?: number;
  /** What the carrier has done and answered itself; nothing is said to it. */
  readonly optOut?: 'stop' | 'start' | 'help';
}

const HOUR_MS = 3_600_000;
/** Sorries to one phone in an hour: what answers them by itself must not go on for ever. */
const MOST_SORRIES = 5;

/** Said when the catalogue fails too. */
const OUR_FAULT = 'Something went wrong on our side. Nothing is recorded. Please send it again.';

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
  const answered = await answeredBefore(trx, textIn.carrierId, textIn.deliveryToken);
  if (answered !== null) return answered.answer;
  const nowMs = line.clock.nowMs();
  const facts = await loadPhone(trx, textIn.from);
  const [batch, words] = [line.makeId(), cleanText(textIn.text)];
  const walked = { batch, words, nowMs, atMs: Math.min(textIn.sentMs ?? nowMs, nowMs) };
  const outcome = await outcomeOf(trx, line, textIn, facts, walked);
  return writeDown(trx, line, textIn, facts, walked, outcome);
}

/** A text on its walk: what it is named, what it says, when it is walked and when it was sent. */
interface Walked {
  readonly batch: string;
  readonly words: string;
  readonly nowMs: number;
  readonly atMs: number;
}

async function outcomeOf(
  trx: Trx,
  line: Line,
  { from, optOut, sentMs, hasMedia }: TextIn,
  facts: PhoneFacts,
  { batch, words, nowMs, atMs }: Walked,
): Promise<Outcome> {
  const scheme = schemeOf(line, facts);
  const hasTextedSince = sentMs !== undefined && (await textedSince(trx, from, atMs));
  const stateAt = (ms: number) => talkState<StoredState>(facts.row, line.talk.version, ms);
  if (hasMedia === true && optOut === undefined && words.trim() === '')
    return pictureOf(facts, scheme, stateAt(nowMs));
  // What has been asked since was not asked when this was sent.
  const before = hasTextedSince ? null : stateAt(atMs);
  const group = await groupOf(trx, line, facts, settingOf(line, scheme, atMs));
  const outcome =
    optOut === undefined
      ? await stepOf(trx, line, facts, before, { batch, words, nowMs: atMs, group })
      : optOutOf(optOut, before, facts.row?.stopped === 1);
  if (outcome.silent && hasTextedSince) return { ...outcome, state: stateAt(nowMs) };
  if (sentMs === undefined) return outcome;
  const isAgent = group !== null;
  return latelyTold(outcome, { scheme, atMs, nowMs, isAgent, hasTextedSince, standing: stateAt(nowMs) });
}

async function writeDown(
  trx: Trx,
  line: Line,
  textIn: TextIn,
  facts: PhoneFacts,
  { batch, words, nowMs, atMs }: Walked,
  { state, effects, lang }: Outcome,
): Promise<string | null> {
  const scheme = schemeOf(line, facts);
  const { carrierId, from: phone } = textIn;
  const turn = (facts.row?.turns ?? 0) + 1;
  const cause = { batch, phone, turn, nowMs, schemeId: scheme.world.id, words, lang };
  const delivery = { carrier_id: carrierId, received_ms: atMs, ...deliveryOf(textIn) };
  const [price, lastLang] = [scheme.settings.pricePerPart ?? null, facts.row?.lang ?? null];
  const answer = await commitTurn(trx, line, {
    delivery,
    price,
    state,
    effects,
    cause,
    lastLang,
    vouchedMs: vouchedNow(facts.row, nowMs),
  });
  if (textIn.sentMs !== undefined && answer !== null)
    await queueReply(trx, line, { batch, phone, text: answer, scheme, atMs });
  return answer;
}

async function stepOf(
  trx: Trx,
  line: Line,
  facts: PhoneFacts,
  before: StoredState | null,
  { batch, words, nowMs, group }: { batch: string; words: string; nowMs: number; group: Group | null },
): Promise<Outcome> {
  const scheme = schemeOf(line, facts);
  const setting = settingOf(line, scheme, nowMs);
  const { lang, heard, details, isAutomatic } = hearText(line, words, setting.today, facts, scheme, group);
  const source = { isAutomatic, ownTexts: mayBeOwn(words) ? await ownTexts(trx, facts.number) : [] };
  const event = { kind: 'text', batch, text: words, lang, heard, details, source } as const;
  const linking = await linkingOf(trx, line, facts, event, nowMs);
  const world = { ...worldOf(facts, setting), ...(group && { group }), ...(linking && { linking }) };
  return { ...line.talk.step(before, event, world), lang };
}

/** What is kept of how the text came in. */
function deliveryOf({ carrierParts, deliveryToken, sentMs }: TextIn) {
  const queued = sentMs === undefined ? 0 : 1;
  const kept = { carrier_parts: carrierParts ?? null, delivery_token: deliveryToken ?? null };
  return { ...kept, answer_queued: queued } as const;
}

/** Pictures without words are answered shortly, where the phone takes texts; what was asked stays asked. */
function pictureOf(facts: PhoneFacts, scheme: SchemeEntry, standing: StoredState | null): Outcome {
  const [lang = ''] = languagesOf(facts, scheme);
  if (facts.row?.stopped === 1) return { state: standing, effects: [], lang };
  const saying = { sentences: [{ key: 'picture.no-words' }] };
  return { state: standing, effects: [{ do: 'say', lang, saying }], lang };
}

/** The carrier has done it and has answered: we follow, and say nothing. */
function optOutOf(
  optOut: NonNullable<TextIn['optOut']>,
  before: StoredState | null,
  isStopped: boolean,
): Outcome {
  if (optOut === 'help') return { state: before, effects: [], lang: null };
  if (optOut === 'stop' && isStopped) return { state: null, effects: [], lang: null };
  return { state: null, effects: [{ do: optOut }], lang: null };
}

/** Keeps the text and its sorry, so that the same delivery again gets the same answer; the conversation starts anew. */
async function keepFaulty(trx: Trx, line: Line, textIn: TextIn): Promise<string | null> {
  const before = await answeredBefore(trx, textIn.carrierId, textIn.deliveryToken);
  if (before !== null) return before.answer;
  const phone = textIn.from;
  const row = await findPhone(trx, phone);
  const turn = (row?.turns ?? 0) + 1;
  const sinceMs = line.clock.nowMs() - HOUR_MS;
  const isTold = (await sorriesSince(trx, phone, sinceMs)) >= MOST_SORRIES;
  const answer = row?.stopped === 1 || isTold ? null : sorry(line, row?.lang ?? null);
  const vouchedMs = vouchedNow(row, line.clock.nowMs());
  await keepTalk(trx, { number: phone, turns: turn, lang: row?.lang ?? null, state: null, vouchedMs });
  const scheme = schemeOf(line, { people: await peopleOfPhone(trx, phone) });
  const [batch, atMs] = [line.makeId(), textIn.sentMs ?? line.clock.nowMs()];
  const faulty = {
    id: batch,
    carrier_id: textIn.carrierId,
    phone,
    turn,
    body: cleanText(textIn.text),
    received_ms: atMs,
    answer,
    faulty: 1,
    ...deliveryOf(textIn),
  } as const;
  await keepText(trx, faulty, scheme.settings.pricePerPart ?? null);
  if (textIn.sentMs !== undefined && answer !== null)
    await queueReply(trx, line, { batch, phone, text: answer, scheme, atMs });
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
