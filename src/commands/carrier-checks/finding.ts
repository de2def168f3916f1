/** What one check of the carrier found, in plain words; and requests whose failure is a finding. */
import { faultCode } from '../../carriers/http-faults.ts';

/** `mend` says what to do; null when all is well. */
export interface Finding {
  readonly what: string;
  readonly mend: string | null;
}

/** What requests are made with, and how time passes between them: tests bring their own. */
export interface Means {
  readonly fetchFrom: typeof fetch;
  readonly waitMs: (ms: number) => Promise<void>;
}

const TIMEOUT_MS = 20_000;

export const well = (what: string): Finding => ({ what, mend: null });
export const wrong = (what: string, mend: string): Finding => ({ what, mend });

/** An answer, or why there was none. */
export type Reached =
  | { readonly ok: true; readonly status: number; readonly text: string }
  | { readonly ok: false; readonly why: string };

/** Makes one request; redirections are not followed, for a carrier follows none with its signature. Never rejects. */
export async function reach(means: Means, url: string, init: RequestInit = {}): Promise<Reached> {
  try {
    const signal = AbortSignal.timeout(TIMEOUT_MS);
    const response = await means.fetchFrom(url, { redirect: 'manual', signal, ...init });
    return { ok: true, status: response.status, text: await response.text() };
  } catch (error) {
    return { ok: false, why: inWords(faultCode(error)) };
  }
}

const WORDS: Readonly<Record<string, string>> = {
  ENOTFOUND: 'there is no host of that name',
  EAI_AGAIN: 'host names cannot be looked up from here',
  ECONNREFUSED: 'nothing listens there',
  ECONNRESET: 'the connection was cut',
  EHOSTUNREACH: 'no way leads there',
  ENETUNREACH: 'this machine has no network',
  timeout: 'no answer came in time',
};

function inWords(code: string | null): string {
  if (code === null) return 'no answer came';
  if (/CERT|SIGNATURE|TLS|SSL/.test(code)) return `its certificate is not good (${code})`;
  return WORDS[code] ?? code;
}

/** A field of a JSON object; null where there is none. */
export function fieldOf(json: string, name: string): string | number | null {
  try {
    const value = (JSON.parse(json) as Record<string, unknown> | null)?.[name];
    return typeof value === 'string' || typeof value === 'number' ? value : null;
  } catch {
    return null;
  }
}
