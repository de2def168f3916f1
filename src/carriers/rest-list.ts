/** Texts that the carrier took for our number, read from its list: those that no webhook brought are among them. */
import { z } from 'zod';
import { faultCode } from './http-faults.ts';
import { deadlineOf, isService, messagesUrl, type RestAccount, requestAs } from './rest-account.ts';

/** A text as the carrier lists it. */
export interface ListedText {
  readonly sid: string;
  /** As written there. */
  readonly from: string;
  readonly text: string;
  readonly sentMs: number;
  /** Parts as the carrier counts them; null when it does not say. */
  readonly parts: number | null;
  /** It came with pictures or sound. */
  readonly hasMedia: boolean;
}

/** All of a list, or why it could not be read to its end. */
export type Listing =
  | { readonly kind: 'listed'; readonly texts: readonly ListedText[] }
  | { readonly kind: 'failed'; readonly why: string };

/** What a listing needs of an account. */
export type ListAccount = Pick<RestAccount, 'baseUrl' | 'accountSid' | 'token' | 'from'>;

const PAGE_SIZE = 500;
/** A list that is longer is taken for one that goes round in a circle. */
const MOST_PAGES = 200;

const page = z.object({ messages: z.array(z.unknown()), next_page_uri: z.string().nullish() });
const listed = z.object({
  sid: z.string().min(1),
  from: z.string(),
  body: z.string(),
  direction: z.literal('inbound'),
  date_sent: z.string().nullish(),
  date_created: z.string().nullish(),
  num_segments: z.coerce.number().int().positive().nullish().catch(null),
  num_media: z.coerce.number().nullish().catch(null),
  messaging_service_sid: z.string().nullish(),
});

/** Texts in since the beginning of the UTC day of `sinceMs`, oldest first; what cannot be read is left out. Never rejects. */
export async function listTextsIn(
  account: ListAccount,
  sinceMs: number,
  fetchFrom: typeof fetch = fetch,
): Promise<Listing> {
  const texts: ListedText[] = [];
  let url: URL | null = firstPage(account, sinceMs);
  try {
    for (let pages = 0; url !== null; pages++) {
      if (pages >= MOST_PAGES) return { kind: 'failed', why: 'the list has no end' };
      const { response, body } = await requestAs(account, url, { signal: deadlineOf({}) }, fetchFrom);
      const read = page.safeParse(body);
      if (!response.ok || !read.success) return { kind: 'failed', why: `HTTP ${response.status}` };
      texts.push(...read.data.messages.flatMap((one) => textsOf(one, account)));
      url = nextPage(account, read.data.next_page_uri ?? null);
    }
  } catch (error) {
    return { kind: 'failed', why: faultCode(error) ?? 'no answer' };
  }
  return { kind: 'listed', texts: texts.sort((a, b) => a.sentMs - b.sentMs) };
}

function firstPage(account: ListAccount, sinceMs: number): URL {
  const url = new URL(messagesUrl(account));
  // A messaging service has several numbers: its texts are told by its id.
  if (!isService(account.from)) url.searchParams.set('To', account.from);
  url.searchParams.set('DateSent>', new Date(sinceMs).toISOString().slice(0, 10));
  url.searchParams.set('PageSize', String(PAGE_SIZE));
  return url;
}

/** The token goes to no other host, whatever the list says. */
function nextPage(account: ListAccount, uri: string | null): URL | null {
  if (uri === null || uri === '') return null;
  const base = new URL(messagesUrl(account));
  const next = new URL(uri, base);
  return next.origin === base.origin ? next : null;
}

function textsOf(one: unknown, account: ListAccount): readonly ListedText[] {
  const read = listed.safeParse(one);
  if (!read.success) return [];
  const { sid, from, body: text, num_segments: parts, ...rest } = read.data;
  if (isService(account.from) && rest.messaging_service_sid !== account.from) return [];
  const sentMs = Date.parse(rest.date_sent ?? rest.date_created ?? '');
  if (Number.isNaN(sentMs)) return [];
  return [{ sid, from, text, sentMs, parts: parts ?? null, hasMedia: (rest.num_media ?? 0) > 0 }];
}
