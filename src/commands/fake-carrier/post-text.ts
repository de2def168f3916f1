/** Posts a grower's text to the line as the carrier does: a signed form; the connection may be cut before the answer is read. */
import { request } from 'node:http';
import { signForm } from '../../web/signature.ts';
import type { Brought } from '../road.ts';
import { SID, TOKEN } from './fake-carrier.ts';

/** Where the line is for the carrier, where it really listens, and its number. */
export interface Reached {
  readonly publicUrl: string;
  readonly url: string;
  readonly number: string;
}

/** When the connection is cut: as soon as the text is sent, when the answer begins, or not at all. */
export type Cut = 'when-sent' | 'when-answered' | 'never';

/** Resolves to the answer as the phone shows it, null when there is none or it was not read; rejects when it is no 200. */
export async function postText(reached: Reached, text: Brought, cut: Cut = 'never'): Promise<string | null> {
  const form = formOf(reached, text);
  const signature = signForm(TOKEN, `${reached.publicUrl}/sms`, form);
  const xml = await postForm(`${reached.url}/sms`, new URLSearchParams(form).toString(), signature, cut);
  const message = /<Message>(.*)<\/Message>/s.exec(xml ?? '')?.[1];
  return message === undefined ? null : unescapeXml(message);
}

function formOf({ number }: Reached, { carrierId, from, text }: Brought): Record<string, string> {
  const [to, parts] = [number, '1'];
  const ids = { MessageSid: carrierId, SmsSid: carrierId, AccountSid: SID, ApiVersion: '2010-04-01' };
  return { ...ids, From: from, To: to, Body: text, NumMedia: '0', NumSegments: parts, SmsStatus: 'received' };
}

function postForm(url: string, body: string, signature: string, cut: Cut): Promise<string | null> {
  const headers = {
    'content-type': 'application/x-www-form-urlencoded',
    'content-length': Buffer.byteLength(body),
    'x-twilio-signature': signature,
  };
  return new Promise((resolve, reject) => {
    const posting = request(url, { method: 'POST', agent: false, headers }, (response) => {
      if (cut === 'when-answered') response.destroy();
      let xml = '';
      response.setEncoding('utf8').on('data', (piece) => {
        xml += String(piece);
      });
      response.once('end', () =>
        response.statusCode === 200
          ? resolve(xml)
          : reject(new Error(`the line answered ${response.statusCode}`)),
      );
      if (cut !== 'never') response.once('error', () => resolve(null)).once('close', () => resolve(null));
    });
    posting.once('error', (error) => (cut === 'never' ? reject(error) : resolve(null)));
    posting.once('close', () => resolve(null));
    posting.end(body, () => {
      if (cut === 'when-sent') posting.destroy();
    });
  });
}

const SIGNS: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function unescapeXml(xml: string): string {
  return xml.replace(/&(\w+);/g, (whole, name: string) => SIGNS[name] ?? whole);
}
