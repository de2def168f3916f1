/** Sends one text and follows it to its end. */
import { authorizationOf, isService, messagesUrl, type RestAccount } from '../../carriers/rest-account.ts';
import { meaningOf } from '../../carriers/rest-errors.ts';
import { type Finding, fieldOf, type Means, reach, well, wrong } from './finding.ts';

/** What a test text says. */
export const TEST_WORDS = 'Bundline: this is a test of the line. Nothing needs to be done.';
const LOOK_EVERY_MS = 2000;
/** Two minutes. */
const LOOKS = 60;
const FAILED = ['undelivered', 'failed', 'canceled'];

const MENDS = {
  permanent: 'Check the number, and that the carrier texts to its country.',
  'opted-out': 'That phone has stopped texts from this number: text START from it.',
  gone: 'That number is not in service: try another phone.',
  tomorrow: 'That phone is out of reach: switch it on and try again.',
  later: 'Try again in some minutes.',
  alarm: 'Ask the carrier why: the number’s permission, its balance, or its filters.',
} as const;

/** Texts the number; well when the text arrives. */
export async function checkText(account: RestAccount, to: string, means: Means): Promise<Finding> {
  const headers = { authorization: authorizationOf(account) };
  const sender = isService(account.from) ? 'MessagingServiceSid' : 'From';
  const body = new URLSearchParams({ To: to, [sender]: account.from, Body: TEST_WORDS });
  const sent = await reach(means, messagesUrl(account), { method: 'POST', headers, body });
  if (!sent.ok) return wrong(`The test text was not sent: ${sent.why}.`, 'Try again.');
  const sid = fieldOf(sent.text, 'sid');
  if (sent.status >= 400 || typeof sid !== 'string') return refused(sent.status, sent.text);
  const url = messagesUrl(account).replace(/\.json$/, `/${encodeURIComponent(sid)}.json`);
  let state = 'queued';
  for (let look = 0; look < LOOKS; look++) {
    await means.waitMs(LOOK_EVERY_MS);
    const told = await reach(means, url, { headers });
    state = told.ok ? String(fieldOf(told.text, 'status') ?? state) : state;
    if (state === 'delivered' || state === 'read') return well('The test text was delivered.');
    if (told.ok && FAILED.includes(state)) return ended(state, told.text);
  }
  return state === 'sent'
    ? well('The test text was sent; this carrier tells no more. See whether the phone has it.')
    : wrong(
        `After two minutes the test text is still ${state}.`,
        'Ask the carrier; see its own log of texts.',
      );
}

function refused(status: number, text: string): Finding {
  const code = codeIn(text, 'code');
  return wrong(`The carrier refused the test text (${named(code, status)}).`, MENDS[meaningOf(code, status)]);
}

function ended(state: string, text: string): Finding {
  const code = codeIn(text, 'error_code');
  return wrong(`The test text ended as ${state} (${named(code, 200)}).`, MENDS[meaningOf(code, 200)]);
}

const named = (code: number | null, status: number) => (code === null ? `HTTP ${status}` : `error ${code}`);

function codeIn(text: string, name: string): number | null {
  const code = Number(fieldOf(text, name) ?? Number.NaN);
  return Number.isNaN(code) ? null : code;
}
