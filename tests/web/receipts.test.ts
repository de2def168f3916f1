/** Receipts over HTTP: who may send them, and that no order of them moves a text back. */
import * as fc from 'fast-check';
import { describe, expect, onTestFinished, test } from 'vitest';
import { SID, TOKEN } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { sendReceipt } from '../../src/commands/fake-carrier/receipts.ts';
import { leaseTexts, markHanded, purgePhone } from '../../src/store/outbox.ts';
import { signForm } from '../../src/web/signature.ts';
import { outboxRows, queueNow } from '../support/carried-line.ts';
import { OUTSIDE_TOOLS } from '../support/fake-carrier.ts';
import { PUBLIC_URL } from '../support/rest-texts.ts';
import { NOON_MS, type TestLine, testLine } from '../support/test-line.ts';
import { ANN } from '../support/valley-scheme.ts';
import { startWeb } from '../support/webhook.ts';

/** As the public list of message states has them, with how far each has come. */
const RANKS: Readonly<Record<string, number>> = {
  accepted: 0,
  scheduled: 0,
  queued: 0,
  sending: 1,
  sent: 2,
  delivered: 3,
  undelivered: 3,
  failed: 3,
  canceled: 3,
  read: 4,
};
const STATES: Readonly<Record<string, string>> = {
  delivered: 'delivered',
  read: 'delivered',
  undelivered: 'failed',
  failed: 'failed',
  canceled: 'failed',
};

async function web() {
  const line = await testLine(onTestFinished);
  const { url } = await startWeb(line, onTestFinished, { token: TOKEN, publicUrl: PUBLIC_URL });
  const reporting = {
    sign: OUTSIDE_TOOLS.sign,
    token: TOKEN,
    accountSid: SID,
    line: { publicUrl: PUBLIC_URL, url },
  };
  /** A receipt of the text with our id `id`, which the carrier calls `sid`. */
  const tell = (id: string, sid: string, status: string, code?: number) => {
    const form = { StatusCallback: `${PUBLIC_URL}/sms/status?text=${id}` };
    return sendReceipt(reporting, { sid, to: ANN, form }, { status, ...(code !== undefined && { code }) });
  };
  /** Any form, signed for this path. */
  const post = (form: Record<string, string> | [string, string][], path = '/sms/status', token = TOKEN) => {
    const body = new URLSearchParams(form);
    const lists = Object.fromEntries([...body.keys()].map((name) => [name, body.getAll(name)]));
    const headers = { 'X-Twilio-Signature': signForm(token, PUBLIC_URL + path, lists) };
    return fetch(url + path, { method: 'POST', body, headers });
  };
  return { line, url, tell, post };
}

const row = async (line: TestLine) => (await outboxRows(line))[0];

/** On lease: the carrier has it, and we have no answer yet. */
async function onLease(line: TestLine, id: string): Promise<void> {
  await queueNow(line, id, ANN);
  await line.together((trx) => leaseTexts(trx, line.clock.nowMs(), 50));
}

describe('what is refused', () => {
  const delivered = { MessageSid: 'SM1', MessageStatus: 'delivered' };

  test('a receipt that is not signed, or signed for another text or with another secret: 403', async () => {
    const { line, url, post } = await web();
    await onLease(line, 'k');
    const path = '/sms/status?text=k';
    const body = new URLSearchParams(delivered);
    const unsigned = await fetch(url + path, { method: 'POST', body });
    const signature = signForm(TOKEN, `${PUBLIC_URL}/sms/status?text=other`, delivered);
    const headers = { 'X-Twilio-Signature': signature };
    const other = await fetch(url + path, { method: 'POST', body, headers });
    const statuses = [unsigned, other, await post(delivered, path, 'guess')].map(({ status }) => status);
    expect(statuses).toEqual([403, 403, 403]);
    expect(await row(line)).toMatchObject({ state: 'queued', carrier_id: null });
    expect((await post(delivered, path)).status).toBe(204);
    expect(await row(line)).toMatchObject({ state: 'delivered', carrier_id: 'SM1' });
  });

  test.each([
    ['no message', { MessageStatus: 'delivered' }],
    ['no state', { MessageSid: 'SM1' }],
    ['nothing', {}],
    ['an empty message', { MessageSid: '', MessageStatus: 'delivered' }],
  ])('%s: 400', async (_name, form) => {
    const { line, post } = await web();
    await onLease(line, 'k');
    expect((await post(form as Record<string, string>, '/sms/status?text=k')).status).toBe(400);
    expect(await row(line)).toMatchObject({ state: 'queued' });
  });

  test('a field that came twice: 400', async () => {
    const { post } = await web();
    const twice: [string, string][] = [...Object.entries(delivered), ['MessageStatus', 'failed']];
    expect((await post(twice)).status).toBe(400);
  });
});

describe('what is taken and changes nothing: 204', () => {
  test.each([
    ['a text of nobody', 'none', 'SM9', 'delivered'],
    ['a state that is not known', 'k', 'SM1', 'partially_delivered'],
    ['another message under our id', 'k', 'SM9', 'delivered'],
  ])('%s', async (_name, id, sid, status) => {
    const { line, tell } = await web();
    await onLease(line, 'k');
    await line.together((trx) => markHanded(trx, 'k', { carrierId: 'SM1' }, NOON_MS));
    const before = await outboxRows(line);
    expect(await tell(id, sid, status)).toBe(204);
    expect(await outboxRows(line)).toEqual(before);
  });

  test('the same receipt again, later', async () => {
    const { line, tell } = await web();
    await onLease(line, 'k');
    expect(await tell('k', 'SM1', 'undelivered', 30006)).toBe(204);
    const before = await outboxRows(line);
    expect(before).toMatchObject([{ state: 'failed', why: 'error 30006', receipt: 3 }]);
    line.clock.advance(60_000);
    expect(await tell('k', 'SM1', 'undelivered', 30006)).toBe(204);
    expect(await outboxRows(line)).toEqual(before);
  });
});

test('older names of the fields, capitals, and a text found by the carrier’s own id', async () => {
  const { line, post } = await web();
  await onLease(line, 'k');
  await line.together((trx) => markHanded(trx, 'k', { carrierId: 'SM1' }, NOON_MS));
  expect((await post({ SmsSid: 'SM1', SmsStatus: 'Delivered' })).status).toBe(204);
  expect(await row(line)).toMatchObject({ state: 'delivered', receipt: 3 });
});

/** Some states in any order, some of them twice, and where among them the answer to our own hand-over comes. */
const stories = fc
  .uniqueArray(fc.constantFrom(...Object.keys(RANKS)), { minLength: 1, maxLength: 6 })
  .chain((some) =>
    fc.tuple(
      fc.shuffledSubarray([...some, ...some.slice(0, 2)], { minLength: some.length }),
      fc.nat({ max: 8 }),
    ),
  );

test('in any order, doubled, before our own answer or after it: a text never moves back', async () => {
  const { line, tell } = await web();
  let count = 0;
  const never = fc.asyncProperty(stories, async ([told, answerAt]) => {
    count += 1;
    const [id, sid] = [`k${count}`, `SM${count}`];
    const answer = { carrierId: sid, parts: 3 };
    const read = () =>
      line.db.selectFrom('outbox').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
    await onLease(line, id);
    let far = -1;
    let end: string = 'handed';
    for (const [i, status] of told.entries()) {
      if (i === answerAt) await line.together((trx) => markHanded(trx, id, answer, NOON_MS));
      expect(await tell(id, sid, status, STATES[status] === 'failed' ? 30006 : undefined)).toBe(204);
      const rank = RANKS[status] ?? 0;
      // Of several ends the carrier's first word holds, until it says that the text was read.
      if (rank > far) end = STATES[status] ?? 'handed';
      far = Math.max(far, rank);
      expect(await read()).toMatchObject({ receipt: far, state: end, carrier_id: sid });
    }
    await line.together((trx) => markHanded(trx, id, answer, NOON_MS));
    expect(await read()).toMatchObject({ receipt: far, state: end, carrier_id: sid, carrier_parts: 3 });
  });
  await fc.assert(never, { numRuns: 80 });
});

describe("the carrier's own count of parts", () => {
  test('is kept when a receipt came before the answer to the hand-over; its state and instant stay', async () => {
    const { line, tell } = await web();
    await onLease(line, 'k');
    await tell('k', 'SM1', 'delivered');
    const before = await row(line);
    line.clock.advance(1_000);
    await line.together((trx) => markHanded(trx, 'k', { carrierId: 'SM1', parts: 2 }, line.clock.nowMs()));
    expect(await row(line)).toEqual({ ...before, carrier_parts: 2 });
  });

  test('is kept with id and instant of a text that was given up while the carrier took it', async () => {
    const { line } = await web();
    await onLease(line, 'k');
    await line.together((trx) => purgePhone(trx, ANN, NOON_MS));
    await line.together((trx) => markHanded(trx, 'k', { carrierId: 'SM1', parts: 2 }, NOON_MS + 5));
    const told = { carrier_id: 'SM1', carrier_parts: 2, handed_ms: NOON_MS + 5 };
    expect(await row(line)).toMatchObject({ ...told, state: 'failed', why: 'opted-out' });
  });

  test('is taken from a receipt where the carrier tells it there, also a late one; a known count stays', async () => {
    const { line, post } = await web();
    await onLease(line, 'k');
    const told = (status: string, parts: string) =>
      post({ MessageSid: 'SM1', MessageStatus: status, NumSegments: parts }, '/sms/status?text=k');
    await told('delivered', 'many');
    expect(await row(line)).toMatchObject({ state: 'delivered', carrier_parts: null });
    await told('sent', '2');
    expect(await row(line)).toMatchObject({ state: 'delivered', receipt: 3, carrier_parts: 2 });
    await told('read', '4');
    expect(await row(line)).toMatchObject({ receipt: 4, carrier_parts: 2 });
  });

  test('of nobody’s text changes nothing', async () => {
    const { line } = await web();
    await line.together((trx) => markHanded(trx, 'none', { carrierId: 'SM1', parts: 2 }, NOON_MS));
    expect(await outboxRows(line)).toEqual([]);
  });
});
