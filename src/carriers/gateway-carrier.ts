/**
 * A carrier behind a plain HTTP gateway, such as a phone or a modem on a laptop: everything about it comes from its settings.
 * Such a gateway cannot be asked what it has taken. So a text whose end is not known is not tried again: it waits a while
 * for a delivery report and then ends as failed, unless the settings say that doubles are better than losses.
 */
import { gsmSeptets } from '../say/gsm.ts';
import type { Carrier, Handing, TextOut } from './carrier.ts';
import { type OutCharset, octetsOf } from './charset.ts';
import { fillForm, fillJson, fillUrl, type JsonTemplate, type PlaceValues } from './gateway-template.ts';
import { brokenHanding, retryAfterMs } from './http-faults.ts';

/** How the gateway is told of an alphabet, and in which octets it takes texts of it. */
export interface Alphabet {
  /** What stands for {coding}. */
  readonly coding: string;
  readonly charset: OutCharset;
}

/** An answer is such a one when its status is listed and the pattern, if any, is found in it. */
export interface AnswerSign {
  readonly status: readonly number[];
  readonly pattern: RegExp | null;
}

export interface GatewaySending {
  readonly method: 'GET' | 'POST';
  /** With places, each value percent-encoded. */
  readonly url: string;
  /** What a POST carries. */
  readonly body:
    | { readonly format: 'form'; readonly fields: Readonly<Record<string, string>> }
    | { readonly format: 'json'; readonly fields: JsonTemplate };
  readonly headers: Readonly<Record<string, string>>;
  /** Places of the settings' own: a user, a password, a sender. */
  readonly values: Readonly<Record<string, string>>;
  /** "+447700900001", or "447700900001". */
  readonly number: 'plus' | 'digits';
  readonly gsm: Alphabet;
  /** Its charset has every character. */
  readonly ucs2: Alphabet;
  /** The first group of its pattern, or the one named `id`, is the gateway's id of the text. */
  readonly taken: AnswerSign;
  /** Surely not taken, for now. */
  readonly busy: AnswerSign;
  /** Surely not taken, and never will be. */
  readonly refused: AnswerSign;
  readonly timeoutMs: number;
  readonly doubles: 'never' | 'better-than-losses';
  readonly partsPerSecond: number | null;
}

/** Places that every template may have. */
export const PLACES = ['to', 'text', 'hex', 'id', 'coding', 'charset', 'minutes', 'seconds'] as const;

/** While the settings are wrong, texts are tried again so seldom. */
const ALARM_RETRY_MS = 10 * 60_000;
/** Patterns look no further into an answer. */
const ANSWER_LENGTH = 4096;
const NOT_TWICE = 'it may have been sent before, and this gateway cannot be asked: not sent twice';

/** The carrier of a gateway. `fetchFrom` is what requests are made with. */
export function gatewayCarrier(sending: GatewaySending, fetchFrom: typeof fetch = fetch): Carrier {
  return {
    name: 'gateway',
    simulated: false,
    partsPerSecond: sending.partsPerSecond,
    send: async (text) => {
      if (text.doubtful && sending.doubles === 'never') return { kind: 'failed', why: NOT_TWICE };
      return handOver(sending, text, fetchFrom);
    },
  };
}

/** The carrier's id of a text to which the gateway gave none. */
export function ownCarrierId(id: string): string {
  return `gateway:${id}`;
}

/** The alphabet of a text: GSM-7 where it has every character, and its octets can be written. */
export function alphabetOf(
  text: string,
  { gsm, ucs2 }: { readonly gsm: Alphabet; readonly ucs2: Alphabet },
): Alphabet {
  return gsmSeptets(text) !== null && octetsOf(text, gsm.charset) !== null ? gsm : ucs2;
}

async function handOver(sending: GatewaySending, text: TextOut, fetchFrom: typeof fetch): Promise<Handing> {
  try {
    const { url, init } = requestFor(sending, text);
    const signal = AbortSignal.timeout(sending.timeoutMs);
    // A redirect that is followed could hand the text over twice.
    const response = await fetchFrom(url, { ...init, redirect: 'manual', signal });
    const answer = (await response.text()).slice(0, ANSWER_LENGTH);
    return handingOf(sending, text, response, answer);
  } catch (error) {
    return brokenHanding(error);
  }
}

function requestFor(sending: GatewaySending, text: TextOut): { url: string; init: RequestInit } {
  const { method, body, headers } = sending;
  const values = valuesFor(sending, text);
  const url = fillUrl(sending.url, values);
  if (method === 'GET') return { url, init: { method, headers: { ...headers } } };
  const [type, content] =
    body.format === 'form'
      ? ['application/x-www-form-urlencoded', fillForm(body.fields, values)]
      : ['application/json', JSON.stringify(fillJson(body.fields, { ...textsOf(values), text: text.text }))];
  return { url, init: { method, headers: { 'content-type': type, ...headers }, body: content } };
}

function valuesFor(sending: GatewaySending, { to, text, id, validForMs }: TextOut): PlaceValues {
  const { coding, charset } = alphabetOf(text, sending);
  const octets = octetsOf(text, charset) ?? Buffer.from(text, 'utf8');
  return {
    ...sending.values,
    to: sending.number === 'plus' ? to : to.replace(/^\+/, ''),
    text: octets,
    hex: octets.toString('hex').toUpperCase(),
    id,
    coding,
    charset,
    minutes: String(Math.max(1, Math.floor(validForMs / 60_000))),
    seconds: String(Math.max(1, Math.floor(validForMs / 1000))),
  };
}

function textsOf(values: PlaceValues): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(values).flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : [])),
  );
}

function handingOf(
  { taken, busy, refused }: GatewaySending,
  { id }: TextOut,
  response: Response,
  answer: string,
): Handing {
  const { status } = response;
  const why = `HTTP ${status}`;
  const found = matchOf(taken, status, answer);
  if (found) return { kind: 'handed', carrierId: found.groups?.['id'] ?? found[1] ?? ownCarrierId(id) };
  const askedMs = retryAfterMs(response);
  if (matchOf(busy, status, answer))
    return { kind: 'retry', why, ...(askedMs !== null && { afterMs: askedMs }) };
  if (matchOf(refused, status, answer)) return { kind: 'failed', why };
  return handingByStatus(status, askedMs);
}

/** What the settings say nothing about: an answer that may mean anything is not known to be a refusal. */
function handingByStatus(status: number, askedMs: number | null): Handing {
  const why = `HTTP ${status}`;
  if (status < 300) return { kind: 'unknown', why: 'the gateway’s answer cannot be read' };
  if (status >= 500 || status === 408) return { kind: 'unknown', why };
  if (status === 400 || status === 413 || status === 422) return { kind: 'failed', why };
  return { kind: 'retry', why, afterMs: askedMs ?? ALARM_RETRY_MS, alarm: true };
}

function matchOf({ status, pattern }: AnswerSign, given: number, answer: string): RegExpExecArray | null {
  if (!status.includes(given)) return null;
  return (pattern ?? /^/).exec(answer);
}
