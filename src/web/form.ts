/** Fields of a request as they were sent: in a form, in JSON, or in the address. */
import type { IncomingMessage } from 'node:http';
import type { Request, Response } from 'express';

/** Form fields; a name that came several times has a list. */
export type Form = Readonly<Record<string, string | readonly string[] | undefined>>;

/** Bodies of JSON requests as they came over the wire: their digest is signed, not what was read from them. */
const rawBodies = new WeakMap<IncomingMessage, Buffer>();

/** The field's text; empty when it is missing or came several times. */
export function textOf(value: Form[string]): string {
  return typeof value === 'string' ? value : '';
}

/** Keeps the body of a JSON request for its signature. */
export function keepRawBody(request: IncomingMessage, body: Buffer): void {
  rawBodies.set(request, body);
}

/** The kept body of a JSON request; null for another. */
export function rawBodyOf(request: IncomingMessage): Buffer | null {
  return rawBodies.get(request) ?? null;
}

/** The fields of a request, wherever its kind has them. */
export function formOf(request: Request): Form {
  if (request.method === 'GET') return request.query as Form;
  const body = (request.body ?? {}) as Readonly<Record<string, unknown>>;
  return rawBodyOf(request) === null ? (body as Form) : ofJson(body);
}

/** Numbers count as they are written; what no form could hold is left out. */
function ofJson(body: Readonly<Record<string, unknown>>): Form {
  const fields = Object.entries(body).flatMap(([name, value]) => {
    if (typeof value === 'string') return [[name, value] as const];
    return typeof value === 'number' ? [[name, String(value)] as const] : [];
  });
  return Object.fromEntries(fields);
}

/** The carrier's own count of parts; null for what is none. */
export function partsOf(count: string): number | null {
  return /^[1-9]\d{0,2}$/.test(count) ? Number(count) : null;
}

/** Answers 400 and names the fields that a text cannot be taken without. */
export function refuseMissing(response: Response, missing: readonly string[]): void {
  const names = missing.join(', ');
  response.status(400).type('text/plain').send(`Missing or repeated: ${names}.\n`);
}
