/** Texts in over a Twilio-compatible webhook: a form comes in, XML goes out. */
import type { NextFunction, Request, RequestHandler, Response } from 'express';
import type { Line } from '../sweeps/line.ts';
import { deliveryId, senderNumber } from '../sweeps/sender.ts';
import { type Form, formOf, partsOf, rawBodyOf, refuseMissing, textOf } from './form.ts';
import { isSignedBody, isSignedForm } from './signature.ts';
import { takeText } from './take-text.ts';
import type { TextIn } from './text-in.ts';
import { twiml } from './twiml.ts';

/** What requests are signed with. */
export interface Signing {
  readonly token: string;
  /** The address that the carrier was given, before "/sms"; with the path that a proxy takes off: "https://example.org/line". */
  readonly publicUrl: string;
}

/** Fields without which a text cannot be told from another. */
const NEEDED = ['MessageSid', 'From', 'To', 'Body'] as const;

/** Of the needed fields, the one that may be empty: a picture comes without words. */
const MAY_BE_EMPTY = 'Body';

const OPT_OUTS: Readonly<Record<string, NonNullable<TextIn['optOut']>>> = {
  STOP: 'stop',
  START: 'start',
  HELP: 'help',
};

/** Refuses with 403 what is not signed for the public address. */
export function requireSignature({ token, publicUrl }: Signing): RequestHandler {
  const base = publicUrl.replace(/\/+$/, '');
  return (request, response, next) => {
    const signature = request.get('X-Twilio-Signature') ?? '';
    const url = base + request.originalUrl;
    if (isSigned(request, token, signature, url)) next();
    else response.status(403).type('text/plain').send('The signature does not belong to this request.\n');
  };
}

/** A form is signed with its fields, JSON through the digest of its body, and a GET request by its address alone. */
function isSigned(request: Request, token: string, signature: string, url: string): boolean {
  const raw = rawBodyOf(request);
  if (raw !== null) return isSignedBody(token, signature, url, raw);
  return isSignedForm(token, signature, url, request.method === 'GET' ? {} : formOf(request));
}

/** Answers one text; 400 when a field is missing, an empty Response when the sender cannot be answered. */
export function smsRoute(line: Line) {
  return async (request: Request, response: Response, _next: NextFunction): Promise<void> => {
    const form = formOf(request);
    const missing = NEEDED.filter((name) => isMissing(name, form[name]));
    if (missing.length > 0) return refuseMissing(response, missing);
    const mark = request.get('I-Twilio-Idempotency-Token') ?? '';
    const textIn = textInOf(form, mark, line.schemes()[0]?.country ?? 'GB');
    const answer = textIn === null ? null : await takeText(line, textIn);
    const silent = textIn?.optOut !== undefined;
    response.type('text/xml').send(twiml(silent ? null : answer));
  };
}

function isMissing(name: string, value: Form[string]): boolean {
  return typeof value !== 'string' || (value.trim() === '' && name !== MAY_BE_EMPTY);
}

/** The text as checked; null when the sender cannot be answered. */
function textInOf(form: Form, mark: string, country: string): TextIn | null {
  const from = senderNumber(textOf(form['From']), country);
  if (from === null) return null;
  const optOut = OPT_OUTS[textOf(form['OptOutType']).toUpperCase()];
  const carrierId = deliveryId(textOf(form['MessageSid']), from);
  const text = textOf(form['Body']);
  const carrierParts = partsOf(textOf(form['NumSegments']));
  const hasMedia = Number(textOf(form['NumMedia'])) > 0;
  // A mark counts for its sender only, like an id.
  const deliveryToken = mark.trim() === '' ? null : deliveryId(mark, from);
  const came = { carrierId, deliveryToken, from, text, carrierParts, hasMedia };
  return { ...came, ...(optOut === undefined ? {} : { optOut }) };
}
