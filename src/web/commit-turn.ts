/** Writes down what one step of a conversation came to, whether a text or a screen led to it: state, words, answer, effects. */
import type { Trx } from '../store/commit-together.ts';
import { keepTalk, type StoredState } from '../store/talks.ts';
import { keepText } from '../store/texts-in.ts';
import { planPhone } from '../sweeps/first-reminders.ts';
import type { Line } from '../sweeps/line.ts';
import { type Cause, performEffects } from '../sweeps/perform.ts';
import type { Effect } from '../talk/effect.ts';

export interface Turned {
  /** Under which the text is kept: the same is never kept twice. */
  readonly carrierId: string;
  readonly state: StoredState | null;
  readonly effects: readonly Effect[];
  readonly cause: Cause;
  /** The language of the phone's last answer. */
  readonly lastLang: string | null;
}

/** Keeps all of it in the caller's transaction and returns the answer; null when nothing is to be said. */
export async function commitTurn(trx: Trx, line: Line, turned: Turned): Promise<string | null> {
  const { carrierId, state, effects, cause, lastLang } = turned;
  const { batch: id, phone, turn, words: body, nowMs } = cause;
  const said = effects.find((effect) => effect.do === 'say');
  const answer = said === undefined ? null : line.voice(said.lang).say(said.saying, said.parts);
  await keepTalk(trx, phone, turn, said?.lang ?? lastLang, state);
  await keepText(trx, {
    id,
    carrier_id: carrierId,
    phone,
    turn,
    body,
    received_ms: nowMs,
    answer,
    faulty: 0,
  });
  await performEffects(trx, line, effects, cause);
  if (effects.some((effect) => effect.do === 'join')) await planPhone(trx, line, phone);
  return answer;
}
