/** Checks that a request comes from the carrier: HMAC-SHA1 over the public URL and the form, as Twilio defines it. */
import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import type { Form } from './form.ts';

const STANDARD_PORTS: Readonly<Record<string, string>> = { 'https:': '443', 'http:': '80' };

/**
 * The signature of a form: URL without fragment, then each name in code-unit order with each of its distinct values.
 * `signForm('12345', 'https://a.example/sms', { From: '+447700900001' })` is 28 characters of Base64.
 */
export function signForm(token: string, url: string, form: Form): string {
  const names = Object.keys(form).sort();
  const signed = names
    .map((name) =>
      valuesOf(form[name])
        .map((value) => name + value)
        .join(''),
    )
    .join('');
  return createHmac('sha1', token)
    .update(withoutFragment(url) + signed, 'utf8')
    .digest('base64');
}

/** Whether the signature belongs to the form at this URL, with its standard port written or left out. */
export function isSignedForm(token: string, signature: string, url: string, form: Form): boolean {
  const verdicts = spellingsOf(url).map((spelling) => sameText(signForm(token, spelling, form), signature));
  return verdicts.includes(true);
}

/** Whether a JSON request is signed: its URL carries `bodySHA256`, the digest of the raw body, and is signed alone. */
export function isSignedBody(
  token: string,
  signature: string,
  url: string,
  rawBody: string | Buffer,
): boolean {
  const claimed = new URL(url).searchParams.get('bodySHA256') ?? '';
  const digest = createHash('sha256').update(rawBody).digest('hex');
  return sameText(digest, claimed) && isSignedForm(token, signature, url, {});
}

function valuesOf(value: Form[string]): readonly string[] {
  if (value === undefined) return [];
  return typeof value === 'string' ? [value] : [...new Set(value)].sort();
}

function withoutFragment(url: string): string {
  const at = url.indexOf('#');
  return at < 0 ? url : url.slice(0, at);
}

/** The URL as given, and with its scheme's own port added or taken away. */
function spellingsOf(url: string): readonly string[] {
  const parts = /^(https?:)\/\/([^/?#]*)(.*)$/s.exec(withoutFragment(url));
  if (parts === null) return [url];
  const [, scheme = '', host = '', rest = ''] = parts;
  const port = STANDARD_PORTS[scheme] ?? '';
  const written = /:\d+$/.exec(host)?.[0];
  if (written === undefined) return [url, `${scheme}//${host}:${port}${rest}`];
  if (written === `:${port}`) return [url, `${scheme}//${host.slice(0, -written.length)}${rest}`];
  return [url];
}

/** Compares digests of both, so that neither length nor place of a difference shows in the time taken. */
export function sameText(a: string, b: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text, 'utf8').digest();
  return timingSafeEqual(digest(a), digest(b));
}
