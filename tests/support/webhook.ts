/** Texts the line over HTTP as a carrier would. */

import type { Line } from '../../src/sweeps/line.ts';
import { createApp } from '../../src/web/create-app.ts';
import { type Listening, listen } from '../../src/web/listen.ts';
import type { Signing } from '../../src/web/sms-route.ts';
import { LINE } from './valley-scheme.ts';

/** What came back. */
export interface Answer {
  readonly status: number;
  readonly type: string;
  readonly body: string;
  /** The text of the message, unescaped; null for an empty Response or what is no TwiML. */
  readonly text: string | null;
}

/** A line that listens on a free port until the test's hook stops it. */
export async function startWeb(
  line: Line,
  afterwards: (undo: () => Promise<void>) => void,
  signing: Signing | null = null,
): Promise<Listening & { readonly url: string }> {
  const listening = await listen(createApp(line, { signing }), 0, '127.0.0.1');
  afterwards(() => listening.stop());
  return { ...listening, url: `http://127.0.0.1:${listening.port}` };
}

/** The form of one text as a carrier sends it. */
export function smsForm(id: string, from: string, body: string): Record<string, string> {
  return {
    MessageSid: id,
    From: from,
    To: LINE,
    Body: body,
    NumMedia: '0',
    NumSegments: '1',
    SmsStatus: 'received',
  };
}

/** Posts a form. */
export async function postForm(
  url: string,
  form: Record<string, string>,
  headers: Record<string, string> = {},
): Promise<Answer> {
  return answerOf(await fetch(`${url}/sms`, { method: 'POST', body: new URLSearchParams(form), headers }));
}

/** Texts `body` from a phone. */
export function text(url: string, id: string, from: string, body: string): Promise<Answer> {
  return postForm(url, smsForm(id, from, body));
}

/** Reads a response. */
export async function answerOf(response: Response): Promise<Answer> {
  const body = await response.text();
  const message = /<Message>(.*)<\/Message>/s.exec(body)?.[1];
  return {
    status: response.status,
    type: response.headers.get('content-type') ?? '',
    body,
    text: message === undefined ? null : unescapeXml(message),
  };
}

function unescapeXml(xml: string): string {
  const signs: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
  return xml.replace(/&(\w+);/g, (whole, name: string) => signs[name] ?? whole);
}
