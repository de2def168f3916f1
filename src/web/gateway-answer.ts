/** How a gateway is given the answer to a text: in the response, or as a text of its own when it ignores responses. */
import type { Response } from 'express';
import { octetsOf } from '../carriers/charset.ts';
import { type Alphabet, alphabetOf } from '../carriers/gateway-carrier.ts';
import { queueText } from '../store/outbox.ts';
import type { Line } from '../sweeps/line.ts';
import type { TextIn } from './text-in.ts';

export interface GatewayAnswer {
  readonly by: 'response' | 'outbox';
  readonly gsm: Alphabet;
  readonly ucs2: Alphabet;
  /** The header that tells the alphabet's coding; null for none. */
  readonly codingHeader: string | null;
}

/** An answer that comes later than this is worth nothing. */
const ANSWER_MS = 6 * 3_600_000;

/** Ends the response with the answer as plain text in the alphabet it needs; with nothing when there is none. */
export function answerInResponse(response: Response, how: GatewayAnswer, answer: string | null): void {
  const text = answer ?? '';
  const { coding, charset } = alphabetOf(text, how);
  response.setHeader('Cache-Control', 'no-store');
  response.setHeader('Content-Type', `text/plain; charset=${charset}`);
  if (how.codingHeader !== null && answer !== null) response.setHeader(how.codingHeader, coding);
  response.status(200).end(octetsOf(text, charset));
}

/** Queues the answer once for each text that came in, however often it is delivered. */
export async function answerInOutbox(line: Line, { carrierId, from }: TextIn, answer: string): Promise<void> {
  const nowMs = line.clock.nowMs();
  const key = `answer:${carrierId}`;
  const times = { notBeforeMs: nowMs, expiresMs: nowMs + ANSWER_MS };
  // Its cost is kept with the text that it answers.
  await queueText(line.db, { id: line.makeId(), key, phone: from, text: answer, ...times }, nowMs, null);
}
