/** Asks a Twilio-compatible carrier whether it has a text whose hand-over ended without an answer. */
import { z } from 'zod';
import type { Handing, TextOut } from './carrier.ts';
import { brokenHanding } from './http-faults.ts';
import { deadlineOf, messagesUrl, type RestAccount, requestAs } from './rest-account.ts';
import { refused } from './rest-answers.ts';

/** Clocks of two machines may differ by so much. */
const CLOCKS_DIFFER_MS = 5 * 60_000;
const PAGE_SIZE = 200;
/** More than a phone is texted in the life of a text; a list that is longer is not read to its end. */
const MOST_PAGES = 5;

const message = z.object({
  sid: z.string().min(1),
  num_segments: z.coerce.number().int().positive().nullish().catch(null),
  to: z.string(),
  body: z.string(),
  direction: z.string(),
  date_created: z.string(),
});
const page = z.object({ messages: z.array(message), next_page_uri: z.string().nullish() });
type Message = z.infer<typeof message>;

/**
 * Handed when the carrier has a text to this number, of these words, since it was queued; "not-taken" only when its list was
 * read so far that the text would have been seen. Whatever else happens tells nothing, and nothing must be sent upon it.
 */
export async function lookUp(
  account: RestAccount,
  text: TextOut,
  fetchFrom: typeof fetch,
): Promise<Handing | 'not-taken'> {
  // One deadline for all pages: the hand-over that may follow has to end within the same lease.
  const signal = deadlineOf(account);
  let url: URL | null = firstPage(account, text);
  try {
    for (let pages = 0; pages < MOST_PAGES; pages += 1) {
      const answer = await requestAs(account, url, { signal }, fetchFrom);
      if (!answer.response.ok) return untold(refused(answer));
      const read = page.safeParse(answer.body);
      if (!read.success) return untold({ kind: 'unknown', why: 'the list cannot be read' });
      const { messages, next_page_uri: next } = read.data;
      const found = messages.find((one) => isOf(text, one));
      if (found) return { kind: 'handed', carrierId: found.sid, parts: found.num_segments ?? null };
      if (!next || allOlder(text, messages)) return 'not-taken';
      url = pageAt(account, next);
      if (url === null) break;
    }
    return untold({ kind: 'unknown', why: 'the list goes on' });
  } catch (error) {
    return untold(brokenHanding(error));
  }
}

/** By number alone: the list can be narrowed by the day of sending only, and what waits at the carrier has none yet. */
function firstPage(account: RestAccount, { to }: TextOut): URL {
  const url = new URL(messagesUrl(account));
  url.searchParams.set('To', to);
  url.searchParams.set('PageSize', String(PAGE_SIZE));
  return url;
}

/** Null for an address on another machine, which is not told the password. */
function pageAt({ baseUrl }: RestAccount, uri: string): URL | null {
  const url = new URL(uri, baseUrl);
  return url.origin === new URL(baseUrl).origin ? url : null;
}

function isOf(text: TextOut, one: Message): boolean {
  const ours = one.to === text.to && one.body === text.text && one.direction.startsWith('outbound');
  return ours && !isOlder(text, one);
}

/** The newest come first: nothing newer follows. */
function allOlder(text: TextOut, messages: readonly Message[]): boolean {
  return messages.length > 0 && messages.every((one) => isOlder(text, one));
}

function isOlder({ queuedMs }: TextOut, { date_created }: Message): boolean {
  return Date.parse(date_created) < queuedMs - CLOCKS_DIFFER_MS;
}

/** The text stays as doubtful as it was, whatever came of asking; when to ask again may have been told. */
function untold(handing: Handing): Handing {
  if (handing.kind === 'handed') return handing;
  const why = `look-up: ${handing.why}`;
  if (handing.kind === 'failed') return { kind: 'unknown', why };
  return { ...handing, kind: 'unknown', why };
}
