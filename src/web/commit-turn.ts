/** Writes down what one step of a conversation came to, whether a text or a screen led to it: state, words, answer, effects. */
import type { PricePerPart } from '../scheme/group-section.ts';
import type { Trx } from '../store/commit-together.ts';
import { keepTalk, type StoredState } from '../store/talks.ts';
import { keepText, type NewTextIn } from '../store/texts-in.ts';
import { planPhone } from '../sweeps/first-reminders.ts';
import type { Line } from '../sweeps/line.ts';
import { type Cause, performEffects } from '../sweeps/perform.ts';
import type { Effect } from '../talk/effect.ts';

/** How the words came in and how the answer leaves, as it is kept with them. */
export type KeptDelivery = Pick<
  NewTextIn,
  'carrier_id' | 'received_ms' | 'carrier_parts' | 'delivery_token' | 'answer_queued'
>;

export interface Turned {
  readonly delivery: KeptDelivery;
  /** What a part of the answer costs; null when it costs nothing, or nobody knows. */
  readonly price: PricePerPart | null;
  readonly state: StoredState | null;
  readonly effects: readonly Effect[];
  readonly cause: Cause;
  /** The language of the phone's last answer. */
  readonly lastLang: string | null;
  /** When the number was last known to be its people's, this text counted. */
  readonly vouchedMs: number;
}

/** Keeps all of it in the caller's transaction and returns the answer; null when nothing is to be said. */
export async function commitTurn(trx: Trx, line: Line, turned: Turned): Promise<string | null> {
  const { delivery, price, state, effects, cause, lastLang, vouchedMs } = turned;
  const { batch: id, phone, turn, words: body } = cause;
  const said = effects.find((effect) => effect.do === 'say');
  const answer = said === undefined ? null : line.voice(said.lang).say(said.saying, said.parts);
  await keepTalk(trx, { number: phone, turns: turn, lang: said?.lang ?? lastLang, state, vouchedMs });
  await keepText(trx, { ...delivery, id, phone, turn, body, answer, faulty: 0 }, price);
  await performEffects(trx, line, effects, cause);
  if (effects.some((effect) => effect.do === 'join')) await planPhone(trx, line, phone);
  return answer;
}
