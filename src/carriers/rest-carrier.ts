/** A carrier behind the Twilio-compatible REST interface: texts out over HTTPS, and those whose end is not known looked up. */
import { z } from 'zod';
import type { Carrier, Handing, TextOut } from './carrier.ts';
import { brokenHanding } from './http-faults.ts';
import { deadlineOf, isService, messagesUrl, type RestAccount, requestAs } from './rest-account.ts';
import { refused } from './rest-answers.ts';
import { lookUp } from './rest-look-up.ts';

/** How long a text may wait at the carrier: what its interface takes, in seconds. */
const VALIDITY_S = { least: 1, most: 36_000 };

const message = z.object({
  sid: z.string().min(1),
  num_segments: z.coerce.number().int().positive().nullish().catch(null),
});

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

async function post(account: RestAccount, text: TextOut, fetchFrom: typeof fetch): Promise<Handing> {
  const [method, headers, body] = ['POST', { 'idempotency-key': text.key }, formOf(account, text)];
  const signal = deadlineOf(account);
  try {
    const answer = await requestAs(
      account,
      messagesUrl(account),
      { method, headers, body, signal },
      fetchFrom,
    );
    return answer.response.ok ? taken(answer.body) : refused(answer);
  } catch (error) {
    return brokenHanding(error);
  }
}

function formOf({ from, statusUrl }: RestAccount, { id, to, text, validForMs }: TextOut): URLSearchParams {
  const seconds = Math.floor(validForMs / 1000);
  const validity = Math.min(VALIDITY_S.most, Math.max(VALIDITY_S.least, seconds));
  return new URLSearchParams({
    To: to,
    [isService(from) ? 'MessagingServiceSid' : 'From']: from,
    Body: text,
    ValidityPeriod: String(validity),
    ...(statusUrl !== null && { StatusCallback: `${statusUrl}?text=${encodeURIComponent(id)}` }),
  });
}

/** A good answer that names no message says nothing of ours. */
function taken(body: unknown): Handing {
  const read = message.safeParse(body);
  return read.success
    ? { kind: 'handed', carrierId: read.data.sid, parts: read.data.num_segments ?? null }
    : { kind: 'unknown', why: 'the carrier’s answer cannot be read' };
}
