import fc from 'fast-check';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { Handing } from '../../src/carriers/carrier.ts';
import { restCarrier } from '../../src/carriers/rest-carrier.ts';
import { type Deed, SID, TOKEN } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { listen } from '../../src/web/listen.ts';
import { fakeCarrier } from '../support/fake-carrier.ts';
import { accountAt, PUBLIC_URL, SHORT_MS, textOut } from '../support/rest-texts.ts';
import { NOON_MS } from '../support/test-line.ts';
import { ANN, BEN, LINE } from '../support/valley-scheme.ts';

/** The id of a messaging service. */
const SERVICE = `MG${'0a'.repeat(16)}`;

const MINUTE_MS = 60_000;
const alarm = { kind: 'retry', afterMs: 10 * MINUTE_MS, alarm: true };

/** What a hand-over comes to, and whether the carrier has the text. */
const ANSWERS: readonly (readonly [string, Deed, object, 0 | 1])[] = [
  ['201', 'accept', { kind: 'handed', carrierId: `SM${'1'.padStart(32, '0')}`, parts: 1 }, 1],
  ['201 without JSON', 'no-json', { kind: 'unknown' }, 1],
  ['21211', { status: 400, code: 21211 }, { kind: 'failed', why: 'error 21211' }, 0],
  ['21610', { status: 400, code: 21610 }, { kind: 'failed', why: 'error 21610', number: 'opted-out' }, 0],
  ['30005', { status: 400, code: 30005 }, { kind: 'failed', why: 'error 30005', number: 'gone' }, 0],
  ['400', { status: 400 }, { kind: 'failed', why: 'HTTP 400' }, 0],
  ['30003', { status: 400, code: 30003 }, { kind: 'retry', why: 'error 30003', afterMs: 720 * MINUTE_MS }, 0],
  ['20003', { status: 401, code: 20003 }, { ...alarm, why: 'error 20003' }, 0],
  ['403', { status: 403 }, { ...alarm, why: 'HTTP 403' }, 0],
  ['429', { status: 429, code: 20429 }, { kind: 'retry', why: 'error 20429' }, 0],
  ['429 with a time', { status: 429, retryAfter: '7' }, { kind: 'retry', why: 'HTTP 429', afterMs: 7000 }, 0],
  [
    '429 with a date',
    { status: 429, retryAfter: 'Wed, 10 Mar 2027 10:00:00 GMT' },
    { kind: 'retry', why: 'HTTP 429' },
    0,
  ],
  ['500, not taken', 'fault-before', { kind: 'unknown', why: 'HTTP 500' }, 0],
  ['500, taken', 'fault-after', { kind: 'unknown', why: 'HTTP 500' }, 1],
  ['503 with a time', { status: 503, retryAfter: '7' }, { kind: 'unknown', why: 'HTTP 503' }, 0],
  ['no answer, not taken', 'hang-before', { kind: 'unknown', why: 'timeout' }, 0],
  ['no answer, taken', 'hang-after', { kind: 'unknown', why: 'timeout' }, 1],
  ['a broken connection, not taken', 'reset-before', { kind: 'unknown' }, 0],
  ['a broken connection, taken', 'reset-after', { kind: 'unknown' }, 1],
];

const patience = (deed: Deed) =>
  typeof deed === 'string' && deed.startsWith('hang') ? { timeoutMs: SHORT_MS } : {};

/** An address at which nobody listens any more. */
async function nobody(): Promise<string> {
  const { port, stop } = await listen(() => undefined, 0, '127.0.0.1');
  await stop();
  return `http://127.0.0.1:${port}`;
}

const withoutWhy = ({ why: _why, ...rest }: { readonly why?: string }) => rest;

test.each(ANSWERS)('%s', async (_name, deed, expected, kept) => {
  const fake = await fakeCarrier(onTestFinished, { post: () => deed });
  const handing = await restCarrier(accountAt(fake.url, patience(deed))).send(textOut());
  expect('why' in expected ? handing : withoutWhy(handing as { why?: string })).toEqual(expected);
  expect(fake.kept).toHaveLength(kept);
  expect(fake.posts).toHaveLength(1);
  expect(fake.lists).toHaveLength(0);
});

test('a carrier that is not there has taken nothing', async () => {
  const carrier = restCarrier(accountAt(await nobody()));
  expect(await carrier.send(textOut())).toEqual({ kind: 'retry', why: 'ECONNREFUSED' });
});

describe('what is posted', () => {
  test('number, words, sender, and where receipts of this text go', async () => {
    const fake = await fakeCarrier(onTestFinished);
    await restCarrier(accountAt(`${fake.url}/`)).send(textOut({ id: 'a/b c' }));
    expect(fake.posts[0]?.form).toEqual({
      To: ANN,
      From: LINE,
      Body: 'The canal is closed',
      ValidityPeriod: '3600',
      StatusCallback: `${PUBLIC_URL}/sms/status?text=a%2Fb%20c`,
    });
  });

  test('a sender’s name that begins like a service’s id is a name', async () => {
    const fake = await fakeCarrier(onTestFinished);
    await restCarrier(accountAt(fake.url, { from: 'MGOrrowe' })).send(textOut());
    expect(fake.posts[0]?.form).toMatchObject({ From: 'MGOrrowe' });
    expect(fake.posts[0]?.form).not.toHaveProperty('MessagingServiceSid');
  });

  test('a messaging service, and no receipts', async () => {
    const fake = await fakeCarrier(onTestFinished);
    await restCarrier(accountAt(fake.url, { from: SERVICE, statusUrl: null })).send(textOut());
    expect(fake.posts[0]?.form).toEqual({
      To: ANN,
      MessagingServiceSid: SERVICE,
      Body: 'The canal is closed',
      ValidityPeriod: '3600',
    });
  });

  test('any words come through whole, and are valid for as long as the carrier can keep them', async () => {
    const fake = await fakeCarrier(onTestFinished);
    const carrier = restCarrier(accountAt(fake.url));
    const words = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 300 });
    const any = fc.asyncProperty(words, fc.integer({ min: -1, max: 10 ** 9 }), async (text, validForMs) => {
      expect(await carrier.send(textOut({ text, validForMs }))).toMatchObject({ kind: 'handed' });
      expect(fake.kept.at(-1)?.body).toBe(text);
    });
    await fc.assert(any, { numRuns: 60 });
  });
});

describe('a text whose last try has no known end', () => {
  const doubtful = textOut({ doubtful: true, attempt: 2 });

  /** A carrier that has these texts, the last the newest. */
  async function carrierWith(...texts: readonly (readonly [text: Partial<typeof doubtful>, atMs: number])[]) {
    const fake = await fakeCarrier(onTestFinished);
    const carrier = restCarrier(accountAt(fake.url, { timeoutMs: 5000 }));
    for (const [text, atMs] of texts) {
      fake.ways.nowMs = () => atMs;
      await carrier.send(textOut(text));
    }
    const before = fake.posts.length;
    return { fake, carrier, posted: () => fake.posts.length - before };
  }

  test('is not posted when the carrier has it, though it has not sent it on yet', async () => {
    const { carrier, posted } = await carrierWith(
      [{ to: BEN }, NOON_MS],
      [{}, NOON_MS],
      [{ text: 'x' }, NOON_MS],
    );
    const taken = { kind: 'handed', carrierId: `SM${'2'.padStart(32, '0')}`, parts: 1 };
    expect(await carrier.send(doubtful)).toEqual(taken);
    expect(posted()).toBe(0);
  });

  test.each([
    ['to another number', { to: BEN }, NOON_MS],
    ['of other words', { text: 'The canal is closed.' }, NOON_MS],
    ['of an earlier day', {}, NOON_MS - 6 * MINUTE_MS],
  ])('is posted when the carrier has only one %s', async (_name, text, atMs) => {
    const { fake, carrier, posted } = await carrierWith([text, atMs]);
    expect(await carrier.send(doubtful)).toMatchObject({ kind: 'handed' });
    expect([posted(), fake.lists.length]).toEqual([1, 1]);
  });

  test('is known again by a carrier whose clock is some minutes slow', async () => {
    const { carrier, posted } = await carrierWith([{}, NOON_MS - 4 * MINUTE_MS]);
    expect(await carrier.send(doubtful)).toMatchObject({ kind: 'handed' });
    expect(posted()).toBe(0);
  });

  test('is found on a later page', async () => {
    const others = Array.from({ length: 5 }, (_, i) => [{ text: `later ${i}` }, NOON_MS] as const);
    const { fake, carrier, posted } = await carrierWith([{}, NOON_MS], ...others);
    fake.ways.mostOnPage = 2;
    expect(await carrier.send(doubtful)).toMatchObject({ carrierId: `SM${'1'.padStart(32, '0')}` });
    expect([posted(), fake.lists.length]).toEqual([0, 3]);
  });

  test('is posted when the list has come to texts older than it', async () => {
    const old = Array.from(
      { length: 9 },
      (_, i) => [{ text: `old ${i}` }, NOON_MS - 60 * MINUTE_MS] as const,
    );
    const { fake, carrier, posted } = await carrierWith(...old, [{ text: 'new' }, NOON_MS]);
    fake.ways.mostOnPage = 1;
    expect(await carrier.send(doubtful)).toMatchObject({ kind: 'handed' });
    expect([posted(), fake.lists.length]).toEqual([1, 2]);
  });

  test('is not posted when the list does not come to an end', async () => {
    const others = Array.from({ length: 9 }, (_, i) => [{ text: `later ${i}` }, NOON_MS] as const);
    const { fake, carrier, posted } = await carrierWith([{}, NOON_MS], ...others);
    fake.ways.mostOnPage = 1;
    expect(await carrier.send(doubtful)).toEqual({ kind: 'unknown', why: 'look-up: the list goes on' });
    expect([posted(), fake.lists.length]).toEqual([0, 5]);
  });

  const FAILED: readonly (readonly [Deed, object])[] = [
    ['fault-before', { why: 'look-up: HTTP 500' }],
    ['hang-before', { why: 'look-up: timeout' }],
    ['reset-before', {}],
    ['no-json', { why: 'look-up: the list cannot be read' }],
    [{ status: 400 }, { why: 'look-up: HTTP 400' }],
    [
      { status: 429, retryAfter: '30' },
      { why: 'look-up: HTTP 429', afterMs: 30_000 },
    ],
    [
      { status: 401, code: 20003 },
      { why: 'look-up: error 20003', afterMs: 10 * MINUTE_MS, alarm: true },
    ],
  ];

  test.each(FAILED)('is not posted when looking it up ends in %o', async (deed, expected) => {
    for (const failing of [1, 2]) {
      const fake = await fakeCarrier(onTestFinished, { mostOnPage: 1, nowMs: () => NOON_MS });
      for (const text of ['one', 'two']) await restCarrier(accountAt(fake.url)).send(textOut({ text }));
      fake.ways.list = (count) => (count === failing ? deed : 'accept');
      const handing = await restCarrier(accountAt(fake.url, patience(deed))).send(doubtful);
      expect(handing).toMatchObject({ kind: 'unknown', ...expected });
      expect(fake.posts).toHaveLength(2);
    }
  });

  test('is not posted when nobody is there to be asked', async () => {
    const handing = await restCarrier(accountAt(await nobody())).send(doubtful);
    expect(handing).toEqual({ kind: 'unknown', why: 'look-up: ECONNREFUSED' });
  });

  test('all pages have one deadline, and a page on another machine is not asked for', async () => {
    const asked: (readonly [url: string, signal: unknown])[] = [];
    const pages = [`/2010-04-01/Accounts/${SID}/Messages.json?Page=1`, 'https://elsewhere.example.org/x'];
    const fetchFrom = (async (url: string | URL, init?: RequestInit) => {
      asked.push([String(url), init?.signal]);
      return Response.json({ messages: [], next_page_uri: pages[asked.length - 1] });
    }) as typeof fetch;
    const carrier = restCarrier(accountAt('https://carrier.example.org'), fetchFrom);
    expect(await carrier.send(doubtful)).toMatchObject({ kind: 'unknown' });
    expect(asked.map(([url]) => new URL(url).host)).toEqual(['carrier.example.org', 'carrier.example.org']);
    expect(new Set(asked.map(([, signal]) => signal)).size).toBe(1);
  });
});

test('neither number, words nor password stand in what is told to the log', async () => {
  for (const [, deed] of ANSWERS) {
    const fake = await fakeCarrier(onTestFinished, { post: () => deed });
    const handing: Handing = await restCarrier(accountAt(fake.url, patience(deed))).send(textOut());
    const told = 'why' in handing ? handing.why : '';
    for (const secret of [ANN, ANN.slice(1), 'canal', TOKEN, SID]) expect(told).not.toContain(secret);
  }
});
