/** Who may use a route: those who know a secret, or this machine alone. */
import type { Request, RequestHandler } from 'express';
import { formOfRequest, plainIn } from './octet-form.ts';
import { sameText } from './signature.ts';

/** A secret, and the field or header in which it comes. */
export interface Secret {
  readonly place: 'field' | 'header';
  readonly name: string;
  readonly value: string;
}

/** What a proxy adds to requests of others that it passes on from this machine. */
const PASSED_ON = ['forwarded', 'x-forwarded-for', 'x-real-ip', 'via'];

/** Refuses with 403 what does not bring the secret; without one, what is not from this machine. */
export function requireSecret(secret: Secret | null): RequestHandler {
  if (secret === null) return onlyThisMachine;
  return (request, response, next) => {
    if (sameText(givenIn(request, secret), secret.value)) next();
    else response.status(403).type('text/plain').send('The secret is missing or wrong.\n');
  };
}

/** Refuses with 403 what comes from another machine, or through a proxy or a foreign page on this one. */
export const onlyThisMachine: RequestHandler = (request, response, next) => {
  if (isOfThisMachine(request)) next();
  else response.status(403).type('text/plain').send('Without a secret only this machine may text.\n');
};

function givenIn(request: Request, { place, name }: Secret): string {
  return place === 'header' ? (request.get(name) ?? '') : plainIn(formOfRequest(request), name);
}

function isOfThisMachine(request: Request): boolean {
  const passedOn = PASSED_ON.some((name) => request.get(name) !== undefined);
  const foreign = request.get('sec-fetch-site') === 'cross-site';
  const address = request.socket.remoteAddress ?? '';
  return !passedOn && !foreign && /^(::ffff:)?127\.|^::1$/.test(address);
}
