/** Texts in from a plain HTTP gateway, and its delivery reports: names of fields and ways of writing come from settings. */
import { createHash } from 'node:crypto';
import type { Request, Response } from 'express';
import { textOfOctets } from '../carriers/charset.ts';
import { cleanText } from '../store/clean-text.ts';
import type { Line } from '../sweeps/line.ts';
import { senderNumber } from '../sweeps/sender.ts';
import { refuseMissing } from './form.ts';
import { answerInOutbox, answerInResponse, type GatewayAnswer } from './gateway-answer.ts';
import type { Secret } from './gateway-guard.ts';
import { formOfRequest, type OctetForm, octetsIn, plainIn } from './octet-form.ts';
import { takeText } from './take-text.ts';
import type { TextIn } from './text-in.ts';

export interface GatewayReceiving {
  /** Names of the fields of a text; null when the gateway has none. At least one of `id` and `time` is named. */
  readonly fields: {
    readonly from: string;
    readonly text: string;
    readonly id: string | null;
    /** When the text was sent, in any form: it tells a text from the same words sent later. */
    readonly time: string | null;
    readonly coding: string | null;
    readonly charset: string | null;
  };
  /** `digits`: senders' numbers come with their country, without a plus. */
  readonly number: 'plus' | 'digits';
  /** Of texts whose charset is not named. */
  readonly charset: string;
  /** Values of `coding` that mean UTF-16BE where no charset is named. */
  readonly ucs2Codings: readonly string[];
  /** Null takes texts from this machine only. */
  readonly secret: Secret | null;
  readonly answer: GatewayAnswer;
}

/** Answers one text; 400 when a field is missing, nothing in the response when the sender cannot be answered. */
export function gatewayRoute(line: Line, receiving: GatewayReceiving) {
  return async (request: Request, response: Response): Promise<void> => {
    const form = formOfRequest(request);
    const missing = missingIn(form, receiving);
    if (missing.length > 0) return refuseMissing(response, missing);
    const textIn = textInOf(form, receiving, line.schemes()[0]?.country ?? 'GB');
    const answer = textIn === null ? null : await takeText(line, textIn);
    if (textIn === null || answer === null || receiving.answer.by === 'response') {
      answerInResponse(response, receiving.answer, answer);
      return;
    }
    await answerInOutbox(line, textIn, answer);
    answerInResponse(response, receiving.answer, null);
  };
}

/** An empty text is a text: a picture comes without words. */
function missingIn(form: OctetForm, { fields }: GatewayReceiving): readonly string[] {
  const { from, text, id, time } = fields;
  const told = [id, time].filter((name) => name !== null);
  return [
    ...(plainIn(form, from) === '' ? [from] : []),
    ...(octetsIn(form, text) === null ? [text] : []),
    ...(told.every((name) => plainIn(form, name) === '') ? [told.join(' or ')] : []),
  ];
}

/** The text as checked; null when the sender cannot be answered. */
function textInOf(form: OctetForm, receiving: GatewayReceiving, country: string): TextIn | null {
  const { fields } = receiving;
  const given = octetsIn(form, fields.from)?.toString('utf8') ?? '';
  const digits = receiving.number === 'digits' ? /^\s*([1-9]\d{7,14})\s*$/.exec(given)?.[1] : undefined;
  const from = senderNumber(digits === undefined ? given : `+${digits}`, country);
  const octets = octetsIn(form, fields.text);
  if (from === null || octets === null) return null;
  return {
    carrierId: `${idOf(form, receiving, octets)} ${from}`,
    from,
    text: textOf(form, receiving, octets),
  };
}

function textOf(form: OctetForm, receiving: GatewayReceiving, octets: Buffer): string {
  const { fields, ucs2Codings } = receiving;
  const named = plainIn(form, fields.charset);
  if (named !== '') return textOfOctets(octets, named);
  const wide = ucs2Codings.includes(plainIn(form, fields.coding));
  return textOfOctets(octets, wide ? 'UTF-16BE' : receiving.charset);
}

/** The gateway's id; without one, the same words sent at the same time are the same text, and later ones are not. */
function idOf(form: OctetForm, { fields }: GatewayReceiving, octets: Buffer): string {
  const id = cleanText(plainIn(form, fields.id));
  if (id !== '') return id;
  const digest = createHash('sha256')
    .update(`${plainIn(form, fields.time)}\n`)
    .update(octets);
  return `sent:${digest.digest('hex').slice(0, 32)}`;
}
