/** The account that tests send from, and a text as the outbox hands it over. */
import type { TextOut } from '../../src/carriers/carrier.ts';
import type { RestAccount } from '../../src/carriers/rest-account.ts';
import { SID, TOKEN } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { HOUR_MS, NOON_MS } from './test-line.ts';
import { ANN, LINE } from './valley-scheme.ts';

/** The line's address as the carrier knows it. */
export const PUBLIC_URL = 'https://line.example.org';

/** How long a test waits for a carrier that hangs. */
export const SHORT_MS = 300;

/** The account at this carrier. */
export function accountAt(baseUrl: string, account: Partial<RestAccount> = {}): RestAccount {
  const statusUrl = `${PUBLIC_URL}/sms/status`;
  return { baseUrl, accountSid: SID, token: TOKEN, from: LINE, statusUrl, partsPerSecond: null, ...account };
}

/** A text to Ann on its first try. */
export function textOut(text: Partial<TextOut> = {}): TextOut {
  return {
    to: ANN,
    text: 'The canal is closed',
    id: 't1',
    key: 'k1',
    attempt: 1,
    doubtful: false,
    queuedMs: NOON_MS,
    validForMs: HOUR_MS,
    ...text,
  };
}
