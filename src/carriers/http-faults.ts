/** What a failed HTTP request tells of the text in it: surely not taken, or not known. */
import type { Handing } from './carrier.ts';

/** Errors of a connection that was never made: nothing can have been taken. */
const NEVER_CONNECTED = new Set(['ECONNREFUSED', 'ENOTFOUND', 'EAI_AGAIN', 'EHOSTUNREACH', 'ENETUNREACH']);

/** A connection that was never made took nothing; one that broke may have. */
export function brokenHanding(error: unknown): Handing {
  const code = faultCode(error);
  const why = code ?? 'no answer';
  return NEVER_CONNECTED.has(code ?? '') ? { kind: 'retry', why } : { kind: 'unknown', why };
}

/** The system's code of a failed request, "timeout" when it took too long; null when it has none. */
export function faultCode(error: unknown): string | null {
  const { code, cause, name } = error as { code?: unknown; cause?: unknown; name?: unknown };
  if (typeof code === 'string') return code;
  if (cause !== undefined && cause !== null) return faultCode(cause);
  return name === 'TimeoutError' ? 'timeout' : null;
}

/** "Retry-After" in seconds; null when it is not given so. */
export function retryAfterMs(response: Response): number | null {
  const seconds = Number(response.headers.get('retry-after') ?? Number.NaN);
  return Number.isFinite(seconds) && seconds >= 0 ? seconds * 1000 : null;
}
