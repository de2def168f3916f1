/** An account behind the Twilio-compatible REST interface, and how a request in its name is made. */

/** Whose account it is: what every request needs. */
export type RestLogin = Pick<RestAccount, 'baseUrl' | 'accountSid' | 'token'>;

export interface RestAccount {
  /** "https://api.example.org", without a path. */
  readonly baseUrl: string;
  readonly accountSid: string;
  readonly token: string;
  /** A number, short code or sender's name; or the sid of a messaging service. */
  readonly from: string;
  /** Where the carrier reports what became of a text, without a query; null when it shall not. */
  readonly statusUrl: string | null;
  /** What the number may send in a second. */
  readonly partsPerSecond: number | null;
  /** How long an answer is waited for; 20 seconds when not given. A look-up and a hand-over must end within a lease. */
  readonly timeoutMs?: number;
}

/** An answer, read to its end; `body` is null for what is no JSON. */
export interface RestAnswer {
  readonly response: Response;
  readonly body: unknown;
}

const API = '/2010-04-01/Accounts';
const TIMEOUT_MS = 20_000;

/** Where texts are posted and listed. */
export function messagesUrl({ baseUrl, accountSid }: RestLogin): string {
  return `${baseUrl.replace(/\/+$/, '')}${API}/${encodeURIComponent(accountSid)}/Messages.json`;
}

/** Whether texts come from a messaging service, whose id is "MG" and 32 hex digits; a sender's name may begin so too. */
export function isService(from: string): boolean {
  return /^MG[0-9a-f]{32}$/i.test(from);
}

/** Ends what is not answered in time. */
export function deadlineOf({ timeoutMs = TIMEOUT_MS }: Pick<RestAccount, 'timeoutMs'>): AbortSignal {
  return AbortSignal.timeout(timeoutMs);
}

/** The header that a request in the account's name carries. */
export function authorizationOf({ accountSid, token }: RestLogin): string {
  return `Basic ${Buffer.from(`${accountSid}:${token}`, 'utf8').toString('base64')}`;
}

/** Makes the request in the account's name; rejects when the connection breaks or `signal` ends it. */
export async function requestAs(
  login: RestLogin,
  url: string | URL,
  { headers, ...init }: RequestInit & { readonly headers?: Readonly<Record<string, string>> },
  fetchFrom: typeof fetch,
): Promise<RestAnswer> {
  const authorization = authorizationOf(login);
  const response = await fetchFrom(url, { ...init, headers: { ...headers, authorization } });
  return { response, body: jsonOf(await response.text()) };
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return null;
  }
}
