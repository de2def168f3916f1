/** A carrier behind the Twilio-compatible REST interface: texts out over HTTPS, and those whose end is not known looked up. */
import { z } from 'zod';
import type { Carrier, Handing, TextOut } from './carrier.ts';
import { type Meaning, meaningOf } from './rest-errors.ts';

/** Whose account it is: what every request needs. */
export type RestLogin = Pick<RestAccount, 'baseUrl' | 'accountSid' | 'token'>;

export interface RestAccount {
  /** "https://api.example.org", without a path. */
  readonly baseUrl: string;
  readonly accountSid: string;
  readonly token: string;
  /** A number or sender name; or the sid of a messaging service, which begins with "MG". */
  readonly from: string;
  /** Where the carrier reports what became of a text, without a query; null when it shall not. */
  readonly statusUrl: string | null;
  /** What the number may send in a second. */
  readonly partsPerSecond: number | null;
}

const API = '/2010-04-01/Accounts';
export const TIMEOUT_MS = 20_000;
const HOUR_MS = 3_600_000;
/** How long a text may wait at the carrier: what its interface takes, in seconds. */
const VALIDITY_S = { least: 1, most: 36_000 };
/** While the settings are wrong, texts are tried again so seldom. */
const ALARM_RETRY_MS = 10 * 60_000;
const UNREACHABLE_RETRY_MS = 12 * HOUR_MS;
/** Clocks of two machines may differ by so much. */
const CLOCKS_DIFFER_MS = 5 * 60_000;

/** Errors of a connection that was never made: nothing can have been taken. */
const NEVER_CONNECTED = new Set(['ECONNREFUSED', 'ENOTFOUND', 'EAI_AGAIN', 'EHOSTUNREACH', 'ENETUNREACH']);

const message = z.object({
  sid: z.string().min(1),
  num_segments: z.coerce.number().int().positive().nullish().catch(null),
});
const listed = z.object({
  messages: z.array(
    message.extend({ to: z.string(), body: z.string(), direction: z.string(), date_created: z.string() }),
  ),
});
const refusal = z.object({ code: z.coerce.number().int().nullish().catch(null) });

/** The carrier of an account. `fetchFrom` is what requests are made with. */
export function restCarrier(account: RestAccount, fetchFrom: typeof fetch = fetch): Carrier {
  return {
    name: 'rest',
    simulated: false,
    partsPerSecond: account.partsPerSecond,
    send: async (text) => {
      if (text.doubtful) {
        const found = await lookUp(account, text, fetchFrom);
        if (found !== 'not-taken') return found;
      }
      return post(account, text, fetchFrom);
    },
  };
}

/** Where the account's messages are. */
export const messagesUrl = ({ baseUrl, accountSid }: RestLogin) =>
  `${baseUrl.replace(/\/+$/, '')}${API}/${encodeURIComponent(accountSid)}/Messages.json`;

/** The header that requests carry. */
export const authorization = ({ accountSid, token }: RestLogin) =>
  `Basic ${Buffer.from(`${accountSid}:${token}`, 'utf8').toString('base64')}`;

async function post(account: RestAccount, text: TextOut, fetchFrom: typeof fetch): Promise<Handing> {
  try {
    const response = await fetchFrom(messagesUrl(account), {
      method: 'POST',
      headers: { authorization: authorization(account), 'idempotency-key': text.key },
      body: formOf(account, text),
      signal: AbortSignal.timeout(TIMEOUT_MS),
    });
    const body = await jsonOf(response);
    return response.ok ? taken(body) : refused(response, body);
  } catch (error) {
    return broken(error);
  }
}

function formOf({ from, statusUrl }: RestAccount, { id, to, text, validForMs }: TextOut): URLSearchParams {
  const seconds = Math.floor(validForMs / 1000);
  const validity = Math.min(VALIDITY_S.most, Math.max(VALIDITY_S.least, seconds));
  return new URLSearchParams({
    To: to,
    [from.startsWith('MG') ? 'MessagingServiceSid' : 'From']: from,
    Body: text,
    ValidityPeriod: String(validity),
    ...(statusUrl !== null && { StatusCallback: `${statusUrl}?text=${encodeURIComponent(id)}` }),
  });
}

/** The body of an answer; null for what is no JSON. */
export async function jsonOf(response: Response): Promise<unknown> {
  const text = await response.text();
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return null;
  }
}

/** A good answer that names no message says nothing of ours. */
function taken(body: unknown): Handing {
  const read = message.safeParse(body);
  return read.success
    ? { kind: 'handed', carrierId: read.data.sid, parts: read.data.num_segments ?? null }
    : { kind: 'unknown', why: 'the carrier’s answer cannot be read' };
}

function refused(response: Response, body: unknown): Handing {
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
function broken(error: unknown): Handing {
  const code = codeOf(error);
  const why = code ?? 'no answer';
  return NEVER_CONNECTED.has(code ?? '') ? { kind: 'retry', why } : { kind: 'unknown', why };
}

/** The system's code of a connection that failed, or "timeout"; null where there is none. */
export function codeOf(error: unknown): string | null {
  const { code, cause, name } = error as { code?: unknown; cause?: unknown; name?: unknown };
  if (typeof code === 'string') return code;
  if (cause !== undefined && cause !== null) return codeOf(cause);
  return name === 'TimeoutError' ? 'timeout' : null;
}

/** What the carrier knows of a text: handed when it has one with this number, these words, since it was queued. */
async function lookUp(
  account: RestAccount,
  { to, text, queuedMs }: TextOut,
  fetchFrom: typeof fetch,
): Promise<Handing | 'not-taken'> {
  const url = new URL(messagesUrl(account));
  url.searchParams.set('To', to);
  url.searchParams.set('DateSent>', new Date(queuedMs - CLOCKS_DIFFER_MS).toISOString().slice(0, 10));
  url.searchParams.set('PageSize', '100');
  try {
    const response = await fetchFrom(url, {
      headers: { authorization: authorization(account) },
      signal: AbortSignal.timeout(TIMEOUT_MS),
    });
    const read = listed.safeParse(await jsonOf(response));
    if (!response.ok || !read.success) return { kind: 'unknown', why: `look-up: HTTP ${response.status}` };
    const found = read.data.messages.find(
      (one) =>
        one.to === to &&
        one.body === text &&
        one.direction.startsWith('outbound') &&
        Date.parse(one.date_created) >= queuedMs - CLOCKS_DIFFER_MS,
    );
    return found ? { kind: 'handed', carrierId: found.sid, parts: found.num_segments ?? null } : 'not-taken';
  } catch (error) {
    return { kind: 'unknown', why: `look-up: ${codeOf(error) ?? 'no answer'}` };
  }
}
