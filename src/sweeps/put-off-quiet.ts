/** Texts that nobody asked for and that the quiet hours have overtaken, by a retry or a stop of the machine: they wait. */
import type { Trx } from '../store/commit-together.ts';
import { retryAt } from '../store/outbox.ts';
import { peopleOfPhone } from '../store/people.ts';
import type { OutboxRow } from '../store/tables.ts';
import type { Line } from './line.ts';
import { schemeOf } from './phone-setting.ts';
import { afterQuietMs } from './quiet-hours.ts';

/** What keys of answers to a person's own text or dial begin with. */
const ANSWERS = ['reply:', 'screen:'];

/** Puts off those of the leased texts that may not go out now; returns the others. */
export async function putOffQuiet(
  trx: Trx,
  line: Line,
  leased: readonly OutboxRow[],
  nowMs: number,
): Promise<readonly OutboxRow[]> {
  const quiet = line
    .schemes()
    .filter(({ settings, timeZone }) => afterQuietMs(nowMs, settings.quiet, timeZone) > nowMs);
  if (quiet.length === 0) return leased;
  const now: OutboxRow[] = [];
  for (const text of leased) {
    const isAnswer = ANSWERS.some((kind) => text.key.startsWith(kind));
    const untilMs = isAnswer ? nowMs : await quietUntil(trx, line, text.phone, nowMs);
    if (untilMs <= nowMs) now.push(text);
    else await putOff(trx, text, untilMs);
  }
  return now;
}

async function quietUntil(trx: Trx, line: Line, phone: string, nowMs: number): Promise<number> {
  const { settings, timeZone } = schemeOf(line, { people: await peopleOfPhone(trx, phone) });
  return afterQuietMs(nowMs, settings.quiet, timeZone);
}

/** Back to the queue as it was before it was leased. */
async function putOff(
  trx: Trx,
  { id, attempts, doubtful, why }: OutboxRow,
  notBeforeMs: number,
): Promise<void> {
  const asBefore = { attempts: attempts - 1, doubtful: doubtful === 1, why: why ?? 'quiet hours' };
  await retryAt(trx, id, { notBeforeMs, ...asBefore });
}
