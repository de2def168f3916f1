/** Numbered screens over a carrier's callback: fields in as the shape names them, the screen out as it writes answers. */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { Request, RequestHandler, Response } from 'express';
import { cleanText } from '../../store/clean-text.ts';
import type { Line } from '../../sweeps/line.ts';
import { senderNumber } from '../../sweeps/sender.ts';
import type { UssdAnswer, UssdShape } from './shape.ts';
import { type HitAnswer, takeHit } from './take-hit.ts';

/** Longer inputs are nobody's keys. */
const LONGEST_INPUT = 1000;
const LONGEST_ID = 200;

/** Refuses with 403 what does not carry the secret; without one, what does not come from this machine. */
export function requireUssdSecret({ secret }: UssdShape): RequestHandler {
  return (request, response, next) => {
    const mayPass = secret === null ? isFromHere(request) : carries(request, secret);
    if (mayPass) next();
    else response.status(403).type('text/plain').send('The request does not carry the secret.\n');
  };
}

const BODY_TYPES = { form: 'application/x-www-form-urlencoded', json: 'application/json' } as const;

/** Refuses with 415 a body of another kind than the shape's, and says which is expected: else only a field would seem missing. */
export function requireBodyType({ body }: UssdShape): RequestHandler {
  const expected = BODY_TYPES[body];
  return (request, response, next) => {
    if (request.is(expected) !== false) next();
    else
      response.status(415).type('text/plain').send(`The request must have the content type ${expected}.\n`);
  };
}

/** Answers one hit; 400 when the number is missing or cannot be read. Without an id of the session the inputs tell which it is. */
export function ussdRoute(line: Line, shape: UssdShape) {
  return async (request: Request, response: Response): Promise<void> => {
    const read = fieldReader(request);
    const { fields, inputs, code } = shape;
    const country = line.schemes()[0]?.country ?? 'GB';
    const phone = phoneOf(read(fields.phone) ?? '', country);
    const input = cleanText(read(fields.input) ?? '').slice(0, LONGEST_INPUT);
    if (phone === null) {
      response.status(400).type('text/plain').send(`Missing or not readable: ${fields.phone}.\n`);
      return;
    }
    const sessionId = idOf(fields.session === null ? null : read(fields.session));
    const hitId = idOf(fields.hit === null ? null : read(fields.hit));
    const answer = await takeHit(line, { phone, sessionId, inputs, input, hitId, code });
    send(response, shape.answer, answer);
  };
}

/** An id as kept; null for none and for an empty one. */
function idOf(read: string | null): string | null {
  const id = cleanText(read ?? '').slice(0, LONGEST_ID);
  return id.trim() === '' ? null : id;
}

/** Reads a field of the body, or of a GET's query; null when it is missing, empty of kind, or came several times. */
function fieldReader(request: Request): (name: string) => string | null {
  const source: unknown = request.method === 'GET' ? request.query : request.body;
  const fields = (typeof source === 'object' && source !== null ? source : {}) as Readonly<
    Record<string, unknown>
  >;
  return (name) => {
    const value = Object.hasOwn(fields, name) ? fields[name] : undefined;
    if (typeof value === 'number') return String(value);
    return typeof value === 'string' ? value : null;
  };
}

/** Carriers leave the plus out: what is no number of the scheme's country may be one with its own. */
function phoneOf(written: string, country: string): string | null {
  const digits = written.trim();
  return (
    senderNumber(digits, country) ?? (/^[1-9]\d+$/.test(digits) ? senderNumber(`+${digits}`, country) : null)
  );
}

function send(response: Response, shape: UssdAnswer, { text, ends }: HitAnswer): void {
  const word = ends ? shape.end : shape.goOn;
  if (shape.as === 'json') response.json({ [shape.text]: text, [shape.state]: word });
  else response.type('text/plain').send(word + text);
}

function carries(request: Request, { name, value }: { readonly name: string; readonly value: string }) {
  const inQuery = request.query[name];
  const given = request.get(name) ?? (typeof inQuery === 'string' ? inQuery : '');
  const digest = (text: string) => createHash('sha256').update(text, 'utf8').digest();
  return timingSafeEqual(digest(given), digest(value));
}

const LOOPBACK: ReadonlySet<string | undefined> = new Set(['127.0.0.1', '::1', '::ffff:127.0.0.1']);
/** A proxy on this machine speaks for others, and says so in one of these. */
const FORWARDED = ['forwarded', 'x-forwarded-for', 'x-real-ip', 'via'] as const;

function isFromHere(request: Request): boolean {
  const isRelayed = FORWARDED.some((name) => request.get(name) !== undefined);
  return !isRelayed && LOOPBACK.has(request.socket.remoteAddress);
}
