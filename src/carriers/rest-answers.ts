/** What a refusal or a broken connection of a Twilio-compatible carrier means for the text that was handed over. */
import { z } from 'zod';
import type { Handing } from './carrier.ts';
import type { RestAnswer } from './rest-account.ts';
import { type Meaning, meaningOf } from './rest-errors.ts';

/** While the settings are wrong, texts are tried again so seldom. */
const ALARM_RETRY_MS = 10 * 60_000;
const UNREACHABLE_RETRY_MS = 12 * 3_600_000;

/** Errors of a connection that was never made: nothing can have been taken. */
const NEVER_CONNECTED = new Set(['ECONNREFUSED', 'ENOTFOUND', 'EAI_AGAIN', 'EHOSTUNREACH', 'ENETUNREACH']);

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

/** "Retry-After" in seconds; null when it is not given so. */
function retryAfterMs(response: Response): number | null {
  const seconds = Number(response.headers.get('retry-after') ?? Number.NaN);
  return Number.isFinite(seconds) && seconds >= 0 ? seconds * 1000 : null;
}

/** A connection that was never made took nothing; one that broke may have. */
export function broken(error: unknown): Handing {
  const code = codeOf(error);
  const why = code ?? 'no answer';
  return NEVER_CONNECTED.has(code ?? '') ? { kind: 'retry', why } : { kind: 'unknown', why };
}

function codeOf(error: unknown): string | null {
  const { code, cause, name } = error as { code?: unknown; cause?: unknown; name?: unknown };
  if (typeof code === 'string') return code;
  if (cause !== undefined && cause !== null) return codeOf(cause);
  return name === 'TimeoutError' ? 'timeout' : null;
}
