/** The shape of a gateway's file: every field with its default, and what must hold between them. */
import { z } from 'zod';
import { OUT_CHARSETS } from './carriers/charset.ts';
import { PLACES } from './carriers/gateway-carrier.ts';
import { type JsonTemplate, placesIn } from './carriers/gateway-template.ts';
import { REPORT_STATES } from './web/gateway-report-route.ts';

const name = z.string('must be a name').min(1, 'must be a name');
const nameOrNone = name.nullable().default(null);
/** Codings are told as words; a file may write them as numbers. */
const word = z.union([z.string(), z.number().transform(String)], 'must be a word or a number');
const charset = z.enum(OUT_CHARSETS, `must be one of ${OUT_CHARSETS.join(', ')}`);

const pattern = z
  .string('must be a regular expression')
  .transform((source, context) => {
    try {
      return new RegExp(source, 'u');
    } catch {
      context.addIssue('must be a regular expression');
      return z.NEVER;
    }
  })
  .nullable()
  .default(null);

const statusCode = z
  .int('must be HTTP status codes, like 200')
  .min(100, 'must be HTTP status codes, like 200')
  .max(599, 'must be HTTP status codes, like 200');

/** An answer's sign, with the status codes that count when none are given. */
const signOf = (usual: readonly number[]) =>
  z
    .strictObject({ status: z.array(statusCode).default([...usual]), pattern })
    .default({ status: [...usual], pattern: null });

const jsonTemplate: z.ZodType<JsonTemplate> = z.lazy(() =>
  z.union([
    z.string(),
    z.number(),
    z.boolean(),
    z.null(),
    z.array(jsonTemplate),
    z.record(z.string(), jsonTemplate),
  ]),
);

const SEND_DEFAULTS = {
  gsm: { coding: '0', charset: 'UTF-8' },
  ucs2: { coding: '2', charset: 'UTF-8' },
} as const;

const sendSchema = z
  .strictObject({
    method: z.enum(['GET', 'POST'], 'must be GET or POST').default('GET'),
    url: z.string('must be an address, like http://127.0.0.1:13013/send').refine(isAddress, {
      message:
        'must be an address without a user, like http://127.0.0.1:13013/send, its places behind the host',
    }),
    format: z.enum(['form', 'json'], 'must be form or json').default('form'),
    fields: z.record(z.string(), jsonTemplate, 'must be names with templates').default({}),
    headers: z
      .record(z.string(), z.string('must be a text'))
      .refine(areHeaders, 'must be HTTP headers')
      .default({}),
    values: z.record(z.string().regex(/^[A-Za-z]\w*$/), word).default({}),
    number: z.enum(['plus', 'digits'], 'must be plus or digits').default('plus'),
    gsm: z
      .strictObject({ coding: word.default('0'), charset: charset.default('UTF-8') })
      .default(SEND_DEFAULTS.gsm),
    ucs2: z
      .strictObject({
        coding: word.default('2'),
        charset: charset.default('UTF-8').refine((given) => given !== 'ISO-8859-1', {
          message: 'must be one that has every letter: UTF-8 or UTF-16BE',
        }),
      })
      .default(SEND_DEFAULTS.ucs2),
    taken: signOf([200, 201, 202]),
    busy: signOf([429]),
    refused: signOf([]),
    timeoutMs: z
      .int('must be 100 to 30000 milliseconds')
      .min(100, 'must be 100 to 30000 milliseconds')
      .max(30_000, 'must be 100 to 30000 milliseconds')
      .default(20_000),
    doubles: z.enum(['never', 'better-than-losses'], 'must be never or better-than-losses').default('never'),
    partsPerSecond: z
      .number('must be a number of parts, like 0.2')
      .min(0.01, 'must be 0.01 to 1000')
      .max(1000, 'must be 0.01 to 1000')
      .nullable()
      .default(0.2),
  })
  .superRefine((send, context) => {
    const filled = [send.url, ...(send.method === 'POST' ? stringsIn(send.fields) : [])];
    const used = new Set(filled.flatMap(placesIn));
    const known = new Set<string>([...PLACES, ...Object.keys(send.values)]);
    if ([...used].some((place) => !known.has(place)))
      context.addIssue(`has a place that nothing fills; there are ${[...known].join(', ')}`);
    if (!used.has('to')) context.addIssue('must have the place {to} somewhere');
    if (!used.has('text') && !used.has('hex')) context.addIssue('must have the place {text} somewhere');
    const flat = Object.values(send.fields).every((value) => typeof value !== 'object');
    if (send.format === 'form' && !flat) context.addIssue('has fields within fields; a form has none');
  });

const secretSchema = z
  .strictObject({ field: nameOrNone, header: nameOrNone, value: word })
  .refine(
    ({ field, header }) => (field === null) !== (header === null),
    'must name a field or a header, one of them',
  )
  .refine(({ value }) => value.length >= 8, 'must have a value of at least 8 characters')
  .nullable()
  .default(null);

const ANSWER_DEFAULTS = { by: 'response', codingHeader: null } as const;

const receiveSchema = z.strictObject({
  fields: z
    .strictObject({
      from: name,
      text: name,
      id: nameOrNone,
      time: nameOrNone,
      coding: nameOrNone,
      charset: nameOrNone,
    })
    .refine(({ id, time }) => id !== null || time !== null, 'must name id or time: a repeat is told by it'),
  number: z.enum(['plus', 'digits'], 'must be plus or digits').default('plus'),
  charset: name.default('UTF-8'),
  ucs2Codings: z.array(word).nullable().default(null),
  secret: secretSchema,
  answer: z
    .strictObject({
      by: z.enum(['response', 'outbox'], 'must be response or outbox').default('response'),
      codingHeader: name
        .regex(/^[A-Za-z0-9-]+$/, 'must be the name of a header')
        .nullable()
        .default(null),
    })
    .default(ANSWER_DEFAULTS),
});

const reportSchema = z
  .strictObject({
    id: nameOrNone,
    gatewayId: nameOrNone,
    status: name,
    words: z.record(z.string(), z.enum(REPORT_STATES, `must be one of ${REPORT_STATES.join(', ')}`)),
  })
  .refine(({ id, gatewayId }) => id !== null || gatewayId !== null, 'must name id or gatewayId')
  .nullable()
  .default(null);

export const gatewaySchema = z.strictObject(
  { send: sendSchema, receive: receiveSchema, report: reportSchema },
  'must have the sections send and receive, and may have report',
);

export type GatewayFile = z.infer<typeof gatewaySchema>;

/** Places stand behind the host: a text must never tell where it is sent. A user in it would be refused by `fetch`. */
function isAddress(url: string): boolean {
  return /^https?:\/\/[^\s/?#{}@]+([/?][^\s#]*)?$/.test(url) && URL.canParse(url);
}

function areHeaders(headers: Readonly<Record<string, string>>): boolean {
  try {
    new Headers(headers);
    return true;
  } catch {
    return false;
  }
}

function stringsIn(template: JsonTemplate): readonly string[] {
  if (typeof template === 'string') return [template];
  if (typeof template !== 'object' || template === null) return [];
  return Object.values(template).flatMap(stringsIn);
}
