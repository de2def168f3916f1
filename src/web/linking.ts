/** What the conversation needs of other phones, read only where a text can lead to it. */
import type { Trx } from '../store/commit-together.ts';
import { isInDoubt, type PhoneFacts } from '../store/load-phone.ts';
import { findOffer, isOffered, otherPhones } from '../store/phone-links.ts';
import type { Line } from '../sweeps/line.ts';
import type { TextEvent } from '../talk/event.ts';
import { codeIn, TAIL_DIGITS } from '../talk/second-phone.ts';
import type { Linking } from '../talk/world.ts';

/** Codes are few: one that is open already is drawn again. */
const MOST_DRAWS = 50;

/** Null where the text is not about a second phone and no question about it can be open. */
export async function linkingOf(
  trx: Trx,
  line: Line,
  facts: PhoneFacts,
  event: Pick<TextEvent, 'heard' | 'text'>,
  nowMs: number,
): Promise<Linking | null> {
  const isAsked = event.heard.readings.some((one) => one.kind === 'account' && one.what === 'phone');
  const mayBeHeld = facts.people.length > 1 || isInDoubt(facts, nowMs);
  const code = isAsked || facts.people.length === 0 ? codeIn(event) : null;
  if (!isAsked && !mayBeHeld && code === null) return null;
  return {
    freshCode: await freshCode(trx, line, nowMs),
    others: await otherPhones(trx, facts.number),
    tail: facts.number.slice(-TAIL_DIGITS),
    offer: code !== null ? await findOffer(trx, code, nowMs) : null,
  };
}

async function freshCode(trx: Trx, line: Line, nowMs: number): Promise<string> {
  for (let draws = 0; draws < MOST_DRAWS; draws += 1) {
    const code = line.makeCode();
    if (!(await isOffered(trx, code, nowMs))) return code;
  }
  throw new Error('no code is free');
}
