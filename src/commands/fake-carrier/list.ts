/** The list of texts of the fake carrier, in pages, newest first; and who may read it. */
import type { IncomingMessage, ServerResponse } from 'node:http';

/** A text as it is listed. */
export interface Listed {
  readonly sid: string;
  readonly to: string;
  readonly body: string;
  readonly direction: string;
  /** A number, written as text. */
  readonly num_segments: string;
  /** As e-mail writes dates, to the second. */
  readonly date_created: string;
}

/** Whether the request carries the account's password. */
export function isAuthorized(request: IncomingMessage, accountSid: string, token: string): boolean {
  const [scheme, given = ''] = (request.headers.authorization ?? '').split(' ');
  return scheme === 'Basic' && Buffer.from(given, 'base64').toString('utf8') === `${accountSid}:${token}`;
}

/** Answers with JSON. */
export function answerJson(response: ServerResponse, status: number, body: unknown): void {
  response.writeHead(status, { 'content-type': 'application/json' }).end(JSON.stringify(body));
}

/**
 * The page that the address asks for. No text has been sent on yet, so that an address that asks by the day of sending finds
 * none: the public reference says that the filter compares that day, which a waiting text does not have.
 */
export function listedPage(kept: readonly Listed[], url: URL, most: number) {
  const { searchParams: asked } = url;
  const bySendingDay = [...asked.keys()].some((name) => name.startsWith('DateSent'));
  const to = asked.get('To');
  const all = bySendingDay ? [] : kept.filter((text) => to === null || text.to === to).toReversed();
  const size = Math.min(Number(asked.get('PageSize') ?? 50), most);
  const page = Number(asked.get('Page') ?? 0);
  return {
    messages: all
      .slice(page * size, (page + 1) * size)
      .map((text) => ({ ...fieldsOf(text), status: 'queued', date_sent: null })),
    page,
    page_size: size,
    next_page_uri: (page + 1) * size < all.length ? pathOf(url, page + 1) : null,
  };
}

const fieldsOf = ({ sid, to, body, direction, num_segments, date_created }: Listed): Listed => ({
  sid,
  to,
  body,
  direction,
  num_segments,
  date_created,
});

function pathOf(url: URL, page: number): string {
  const next = new URL(url);
  next.searchParams.set('Page', String(page));
  next.searchParams.set('PageToken', `PA${page}`);
  return next.pathname + next.search;
}
