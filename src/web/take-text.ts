/** The walk of one text: world, hearing, step, saying and records, all in one transaction; the answer comes after it. */
import { cleanText } from '../store/clean-text.ts';
import type { Trx } from '../store/commit-together.ts';
import { loadPhone, type PhoneFacts } from '../store/load-phone.ts';
import { peopleOfPhone } from '../store/people.ts';
import { findPhone, keepTalk, vouchedNow } from '../store/talks.ts';
import { answeredBefore, keepText, sorriesSince } from '../store/texts-in.ts';
import { faultNote, phoneTail } from '../sweeps/fault-note.ts';
import type { Line } from '../sweeps/line.ts';
import { schemeOf } from '../sweeps/phone-setting.ts';
import { commitTurn } from './commit-turn.ts';
import { queueReply } from './late-text.ts';
import type { Outcome } from './outcome.ts';
import { outcomeOf, type Walked } from './outcome-of.ts';
import type { TextIn } from './text-in.ts';

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

/** What is kept of how the text came in. */
function deliveryOf({ carrierParts, deliveryToken, sentMs }: TextIn) {
  const queued = sentMs === undefined ? 0 : 1;
  const kept = { carrier_parts: carrierParts ?? null, delivery_token: deliveryToken ?? null };
  return { ...kept, answer_queued: queued } as const;
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
