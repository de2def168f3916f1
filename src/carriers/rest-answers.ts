/** What a refusal of a Twilio-compatible carrier means for the text that was handed over. */
import { z } from 'zod';
import type { Handing } from './carrier.ts';
import { retryAfterMs } from './http-faults.ts';
import type { RestAnswer } from './rest-account.ts';
import { type Meaning, meaningOf } from './rest-errors.ts';

/** While the settings are wrong, texts are tried again so seldom. */
const ALARM_RETRY_MS = 10 * 60_000;
const UNREACHABLE_RETRY_MS = 12 * 3_600_000;

const refusal = z.object({ code: z.coerce.number().int().nullish().catch(null) });

/** A fault of the carrier's own tells nothing of the text; every other refusal says that it was not taken. */
export function refused({ response, body }: RestAnswer): Handing {
  const { status } = response;
  if (status >= 500) return { kind: 'unknown', why: `HTTP ${status}` };
  const read = refusal.safeParse(body);
  const code = read.success ? (read.data.code ?? null) : null;
  const why = code === null ? `HTTP ${status}` : `error ${code}`;
  return handingFor(meaningOf(code, status), why, retryAfterMs(response));
}

function handingFor(meaning: Meaning, why: string, askedMs: number | null): Handing {
  switch (meaning) {
    case 'permanent':
      return { kind: 'failed', why };
    case 'opted-out':
    case 'gone':
      return { kind: 'failed', why, number: meaning };
    case 'later':
      return { kind: 'retry', why, ...(askedMs !== null && { afterMs: askedMs }) };
    case 'tomorrow':
      return { kind: 'retry', why, afterMs: askedMs ?? UNREACHABLE_RETRY_MS };
    case 'alarm':
      return { kind: 'retry', why, afterMs: askedMs ?? ALARM_RETRY_MS, alarm: true };
  }
}
