import { expect, onTestFinished, test } from 'vitest';
import type { Carrier, Handing, TextOut } from '../../src/carriers/carrier.ts';
import { deskCarrier } from '../../src/carriers/desk.ts';
import { LEASE_MS, leaseTexts, purgePhone, queueText, textsTo } from '../../src/store/outbox.ts';
import { noteReceipt } from '../../src/store/receipts.ts';
import { findPhone, keepTalk } from '../../src/store/talks.ts';
import type { Line } from '../../src/sweeps/line.ts';
import { retryDelayMs, sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { DAY_MS, NOON_MS, testLine } from '../support/test-line.ts';
import { ANN } from '../support/valley-scheme.ts';

/** A carrier that answers as told and keeps what it was given. */
function scripted(...answers: readonly (Handing | 'throws')[]): Carrier & { readonly given: TextOut[] } {
  const given: TextOut[] = [];
  return {
    name: 'scripted',
    simulated: true,
    partsPerSecond: null,
    given,
    send: async (text) => {
      given.push(text);
      const answer = answers[Math.min(given.length, answers.length) - 1];
      if (answer === undefined || answer === 'throws') throw new Error('the wire is cut');
      return answer;
    },
  };
}

const HANDED = { kind: 'handed', carrierId: 'c1' } as const;

function queue(line: Line, key: string) {
  const text = {
    id: key,
    key,
    phone: ANN,
    text: `text ${key}`,
    notBeforeMs: NOON_MS,
    expiresMs: NOON_MS + DAY_MS,
  };
  return queueText(line.db, text, NOON_MS, null);
}

async function rows(line: Line) {
  return await line.db.selectFrom('outbox').selectAll().orderBy('id').execute();
}

test('queued texts are handed over once, each with its key', async () => {
  const carrier = scripted(HANDED);
  const line = await testLine(onTestFinished, { carrier });
  for (let i = 0; i < 120; i += 1) await queue(line, `k${i}`);
  expect(await sweepOutbox(line)).toBe(120);
  expect(await sweepOutbox(line)).toBe(0);
  expect(new Set(carrier.given.map((text) => text.key)).size).toBe(120);
  expect(carrier.given).toHaveLength(120);
});

test('two sweeps at once hand no text over twice', async () => {
  const carrier = scripted(HANDED);
  const line = await testLine(onTestFinished, { carrier });
  for (let i = 0; i < 80; i += 1) await queue(line, `k${i}`);
  const [one, two] = await Promise.all([sweepOutbox(line), sweepOutbox(line)]);
  expect(one + two).toBe(80);
  expect(carrier.given).toHaveLength(80);
});

test('a key is queued once', async () => {
  const line = await testLine(onTestFinished);
  expect(await queue(line, 'k')).toBe(true);
  expect(await queue(line, 'k')).toBe(false);
  expect(await rows(line)).toHaveLength(1);
});

test('the desk keeps what it was handed for the phone to read', async () => {
  const line = await testLine(onTestFinished, { carrier: deskCarrier() });
  await queue(line, 'k');
  expect(await textsTo(line.db, ANN, 0)).toEqual([]);
  await sweepOutbox(line);
  expect(await textsTo(line.db, ANN, 0)).toMatchObject([
    { text: 'text k', state: 'handed', carrier_id: 'desk:k' },
  ]);
});

test('not before its time, and not after', async () => {
  const carrier = scripted(HANDED);
  const line = await testLine(onTestFinished, { carrier });
  await queue(line, 'k');
  line.clock.set(NOON_MS - 1);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.set(NOON_MS + DAY_MS);
  expect(await sweepOutbox(line)).toBe(0);
  expect(carrier.given).toEqual([]);
  expect(await rows(line)).toMatchObject([{ state: 'failed', why: 'expired' }]);
});

test.each([
  ['retry', { kind: 'retry', why: 'busy' } as const],
  ['unknown', { kind: 'unknown', why: 'no answer' } as const],
  ['a thrown error', 'throws' as const],
])(
  '%s: tried again later and later under the same key, for as long as it is worth something',
  async (_name, answer) => {
    const carrier = scripted(answer);
    const line = await testLine(onTestFinished, { carrier });
    await queue(line, 'k');
    for (let attempt = 1; attempt <= 20; attempt += 1) {
      await sweepOutbox(line);
      expect(carrier.given).toHaveLength(attempt);
      line.clock.advance(retryDelayMs(attempt) - 1);
      await sweepOutbox(line);
      expect(carrier.given).toHaveLength(attempt);
      line.clock.advance(1 + retryDelayMs(attempt) / 4);
    }
    expect(carrier.given.map((text) => text.attempt)).toEqual(Array.from({ length: 20 }, (_, at) => at + 1));
    expect(new Set(carrier.given.map((text) => text.key))).toEqual(new Set(['k']));
    expect(await rows(line)).toMatchObject([{ state: 'queued' }]);
    line.clock.set(NOON_MS + DAY_MS);
    await sweepOutbox(line);
    expect(carrier.given).toHaveLength(20);
    expect(await rows(line)).toMatchObject([{ state: 'failed', why: 'expired' }]);
  },
);

test('a carrier that asks for a pause gets it', async () => {
  const carrier = scripted({ kind: 'retry', why: 'slow down', afterMs: 600_000 }, HANDED);
  const line = await testLine(onTestFinished, { carrier });
  await queue(line, 'k');
  await sweepOutbox(line);
  line.clock.advance(599_999);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.advance(150_001);
  expect(await sweepOutbox(line)).toBe(1);
});

test('a sender that died with a text in its hands: taken up again when the lease ends, not before', async () => {
  const carrier = scripted(HANDED);
  const line = await testLine(onTestFinished, { carrier });
  await queue(line, 'k');
  await line.together((trx) => leaseTexts(trx, NOON_MS, 10));
  line.clock.advance(LEASE_MS - 1);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.advance(1);
  expect(await sweepOutbox(line)).toBe(1);
  expect(carrier.given).toMatchObject([{ key: 'k', attempt: 2 }]);
});

test('a clock that goes back does not lock a leased text away', async () => {
  const line = await testLine(onTestFinished, { carrier: scripted(HANDED) });
  await queue(line, 'k');
  await line.together((trx) => leaseTexts(trx, NOON_MS + DAY_MS - 1, 10));
  expect(await sweepOutbox(line)).toBe(1);
});

const receipt = (step: number, state: 'handed' | 'delivered' | 'failed', id: string | null = null) => ({
  id,
  carrierId: 'c1',
  step,
  state,
  why: null,
});

test('a text never moves back, in whatever order the receipts come', async () => {
  const line = await testLine(onTestFinished, { carrier: scripted(HANDED) });
  await queue(line, 'k');
  expect(await noteReceipt(line.db, receipt(3, 'delivered'), NOON_MS)).toBeNull();
  expect(await rows(line)).toMatchObject([{ state: 'queued' }]);
  await sweepOutbox(line);
  expect(await noteReceipt(line.db, receipt(3, 'delivered'), NOON_MS)).not.toBeNull();
  expect(await noteReceipt(line.db, receipt(3, 'failed'), NOON_MS)).toBeNull();
  expect(await noteReceipt(line.db, receipt(2, 'handed'), NOON_MS)).toBeNull();
  await sweepOutbox(line);
  expect(await rows(line)).toMatchObject([{ state: 'delivered', carrier_id: 'c1', attempts: 1 }]);
});

test('a receipt with our own id that comes before the carrier’s answer ends the doubt', async () => {
  const carrier = scripted({ kind: 'unknown', why: 'no answer' });
  const line = await testLine(onTestFinished, { carrier });
  await queue(line, 'k');
  await sweepOutbox(line);
  expect(await rows(line)).toMatchObject([{ state: 'queued', doubtful: 1 }]);
  await noteReceipt(line.db, receipt(2, 'handed', 'k'), NOON_MS);
  expect(await rows(line)).toMatchObject([{ state: 'handed', doubtful: 0, carrier_id: 'c1' }]);
  line.clock.advance(2 * DAY_MS);
  await sweepOutbox(line);
  expect(carrier.given).toHaveLength(1);
});

test('only what may have been taken is doubtful at the next try', async () => {
  const carrier = scripted({ kind: 'retry', why: 'busy' }, { kind: 'unknown', why: 'no answer' }, HANDED);
  const line = await testLine(onTestFinished, { carrier });
  await queue(line, 'k');
  for (let attempt = 1; attempt <= 3; attempt += 1) {
    await sweepOutbox(line);
    line.clock.advance(2 * retryDelayMs(attempt));
  }
  expect(carrier.given.map(({ doubtful }) => doubtful)).toEqual([false, false, true]);
});

test('wrong settings hold a text for as long as it is worth something, and the rest is not tried', async () => {
  const alarm = { kind: 'retry', why: 'error 20003', afterMs: 600_000, alarm: true } as const;
  const carrier = scripted(...Array.from({ length: 59 }, () => alarm), HANDED);
  const line = await testLine(onTestFinished, { carrier });
  for (let i = 0; i < 120; i += 1) await queue(line, `k${i}`);
  expect(await sweepOutbox(line)).toBe(0);
  expect(carrier.given).toHaveLength(50);
  for (let round = 0; round < 12; round += 1) {
    line.clock.advance(1_000_000);
    await sweepOutbox(line);
  }
  expect(new Set((await rows(line)).map(({ state }) => state))).toEqual(new Set(['handed']));
});

test('a number that a carrier twice calls out of service is texted no more until somebody texts from it', async () => {
  const line = await testLine(onTestFinished, {
    carrier: scripted(
      { kind: 'failed', why: 'error 30005', number: 'gone' },
      { kind: 'failed', why: 'error 30005', number: 'gone' },
      HANDED,
    ),
  });
  for (const key of ['a', 'b', 'c']) {
    await queue(line, key);
    await sweepOutbox(line);
  }
  expect((await rows(line)).map(({ why }) => why)).toEqual(['error 30005', 'error 30005', 'number gone']);
  await keepTalk(line.db, { number: ANN, turns: 1, lang: 'en', state: null, vouchedMs: null });
  await queue(line, 'd');
  expect(await sweepOutbox(line)).toBe(1);
});

test('a number that has stopped at the carrier has stopped here: what waits is taken back, the words kept once', async () => {
  const optedOut = { kind: 'failed', why: 'error 21610', number: 'opted-out' } as const;
  const line = await testLine(onTestFinished, { carrier: scripted(optedOut) });
  await queue(line, 'a');
  await sweepOutbox(line);
  await queue(line, 'b');
  await sweepOutbox(line);
  const kept = await line.db.selectFrom('consents').selectAll().where('phone', '=', ANN).execute();
  expect(kept.filter(({ kind }) => kind === 'stopped')).toHaveLength(1);
  expect((await findPhone(line.db, ANN))?.stopped).toBe(1);
});

test('an opt-out that comes while the carrier has the text stays the end of it', async () => {
  let optOut = async () => {};
  const send = async () => {
    await optOut();
    return HANDED;
  };
  const line = await testLine(onTestFinished, {
    carrier: { name: 'slow', simulated: true, partsPerSecond: null, send },
  });
  optOut = () => line.together((trx) => purgePhone(trx, ANN, NOON_MS));
  await queue(line, 'k');
  await sweepOutbox(line);
  expect(await rows(line)).toMatchObject([{ state: 'failed', why: 'opted-out' }]);
});

test('a text that the carrier refuses for good is not tried again', async () => {
  const carrier = scripted({ kind: 'failed', why: 'number gone' });
  const line = await testLine(onTestFinished, { carrier });
  await queue(line, 'k');
  await sweepOutbox(line);
  line.clock.advance(3_600_000);
  await sweepOutbox(line);
  expect(carrier.given).toHaveLength(1);
  expect(await rows(line)).toMatchObject([{ state: 'failed', why: 'number gone' }]);
});

test('a sweep that takes too long leaves the rest to the next one', async () => {
  let advance = () => {};
  const send = async () => {
    advance();
    return HANDED;
  };
  const line = await testLine(onTestFinished, {
    carrier: { name: 'slow', simulated: true, partsPerSecond: null, send },
  });
  advance = () => line.clock.advance(1000);
  for (let i = 0; i < 120; i++) await queue(line, `k${i}`);
  const first = await sweepOutbox(line);
  expect(first).toBeGreaterThan(0);
  expect(first).toBeLessThan(120);
  let handed = first;
  while (handed < 120) {
    const next = await sweepOutbox(line);
    expect(next).toBeGreaterThan(0);
    handed += next;
  }
  expect(handed).toBe(120);
});
