/** Texts that no webhook brought: what is said of their lateness, which of them are asked for again, and how answers go out. */
import type { Day } from '../plan/day.ts';
import type { Trx } from '../store/commit-together.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { localDay } from '../store/local-time.ts';
import { queueText } from '../store/outbox.ts';
import type { StoredState } from '../store/talks.ts';
import type { Line } from '../sweeps/line.ts';
import { afterQuietMs, newsEndMs } from '../sweeps/quiet-hours.ts';
import type { Outcome } from './outcome.ts';

const HOUR_MS = 3_600_000;
/** What an agent ordered so long ago may be wrong by now. */
const OLD_ORDER_MS = HOUR_MS;
/** An answer that comes later than this wakes nobody. */
const LATE_ANSWER_MS = HOUR_MS;

/** When a text was sent, and what has come about since. */
export interface Late {
  readonly scheme: SchemeEntry;
  readonly atMs: number;
  readonly nowMs: number;
  readonly isAgent: boolean;
  readonly hasTextedSince: boolean;
  /** What the line has asked the phone by now. */
  readonly standing: StoredState | null;
}

/**
 * What the step of a late text leads to. On another day than today it says so first; an agent's old order, and a text of another
 * day that others have overtaken, are asked for again, except that an opt-out always holds.
 */
export function latelyTold(step: Outcome, late: Late): Outcome {
  const { timeZone } = late.scheme;
  const [sentOn, today] = [localDay(late.atMs, timeZone), localDay(late.nowMs, timeZone)];
  const isStop = step.effects.some((effect) => effect.do === 'stop');
  if (isStop) return step;
  const isOld = late.isAgent ? late.nowMs - late.atMs > OLD_ORDER_MS : late.hasTextedSince && sentOn < today;
  if (isOld) return askedAgain(step, late.standing, sentOn);
  const told = sentOn < today ? withDay(step, sentOn) : step;
  return { ...told, state: later(told.state, late.nowMs - late.atMs) };
}

/** A step that says nothing, as to a phone that takes no texts, is not asked about either. */
function askedAgain(step: Outcome, standing: StoredState | null, sentOn: Day): Outcome {
  const effects = step.effects.flatMap((effect) =>
    effect.do === 'say'
      ? [{ ...effect, saying: { sentences: [{ key: 'missed.again', values: { day: { day: sentOn } } }] } }]
      : [],
  );
  return { state: standing, effects, lang: step.lang };
}

function withDay(step: Outcome, sentOn: Day): Outcome {
  const came = { key: 'missed.came', values: { day: { day: sentOn } } };
  const effects = step.effects.map((effect) =>
    effect.do === 'say'
      ? { ...effect, saying: { ...effect.saying, sentences: [came, ...effect.saying.sentences] } }
      : effect,
  );
  return { ...step, effects };
}

/** A question is put when its answer goes out, not when the text was sent. */
function later(state: StoredState | null, byMs: number): StoredState | null {
  return state === null ? null : { ...state, expiresMs: state.expiresMs + byMs };
}

/** Queues the answer to a text that no webhook waits for. */
export async function queueReply(
  trx: Trx,
  line: Line,
  reply: {
    readonly batch: string;
    readonly phone: string;
    readonly text: string;
    readonly scheme: SchemeEntry;
    readonly atMs: number;
  },
): Promise<void> {
  const { settings, timeZone } = reply.scheme;
  const nowMs = line.clock.nowMs();
  const isLate = nowMs - reply.atMs > LATE_ANSWER_MS;
  const notBeforeMs = isLate ? afterQuietMs(nowMs, settings.quiet, timeZone) : nowMs;
  const { batch, phone, text } = reply;
  const row = { id: line.makeId(), key: `reply:${batch}`, phone, text };
  const price = settings.pricePerPart ?? null;
  await queueText(trx, { ...row, notBeforeMs, expiresMs: newsEndMs(notBeforeMs) }, nowMs, price);
}
