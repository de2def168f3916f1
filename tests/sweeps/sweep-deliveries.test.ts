import { describe, expect, onTestFinished, test } from 'vitest';
import type { Carrier } from '../../src/carriers/carrier.ts';
import { measure } from '../../src/say/parts.ts';
import { forgetPerson } from '../../src/store/forget.ts';
import { purgePhone } from '../../src/store/outbox.ts';
import { noteReceipt } from '../../src/store/receipts.ts';
import { markGone, markStopped } from '../../src/store/talks.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepBroadcasts } from '../../src/sweeps/sweep-broadcasts.ts';
import { sweepDeliveries } from '../../src/sweeps/sweep-deliveries.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { takeReceipt } from '../../src/sweeps/take-receipt.ts';
import { EVE, queuedTexts, sendBroadcast, stateOf, waterOf, wordsOf } from '../support/broadcasts.ts';
import { fakeVoice } from '../support/fake-talk.ts';
import { MANY_BLOCK, plantMany } from '../support/many-growers.ts';
import { DAY_MS, HOUR_MS, NOON_MS, type TestLine, testLine } from '../support/test-line.ts';
import { ANN, BEN, CYN_AND_DAN } from '../support/valley-scheme.ts';

const MINUTE_MS = 60_000;

/** A carrier that refuses these numbers for good. */
function refusing(...numbers: readonly string[]): Carrier {
  return {
    name: 'refusing',
    simulated: true,
    partsPerSecond: null,
    send: async ({ to, key }) =>
      numbers.includes(to) ? { kind: 'failed', why: 'no such number' } : { kind: 'handed', carrierId: key },
  };
}

async function sent(parts: Parameters<typeof testLine>[1], broadcast = wordsOf('canal closed')) {
  const line = await testLine(onTestFinished, parts);
  await sendBroadcast(line.db, 'b', broadcast);
  await sweepBroadcasts(line);
  await sweepOutbox(line);
  return line;
}

const receipt = (carrierId: string, state: 'delivered' | 'failed') => ({
  id: null,
  carrierId,
  step: 3,
  state,
  why: null,
});

const toldEve = async (line: TestLine) =>
  (await queuedTexts(line.db)).filter(({ phone }) => phone === EVE).map(({ key, text }) => [key, text]);

test('not while texts are queued, nor while receipts may still come; half an hour after the last, once', async () => {
  const line = await testLine(onTestFinished);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  expect(await sweepDeliveries(line)).toBe(0);
  await sweepBroadcasts(line);
  line.clock.advance(HOUR_MS);
  expect(await sweepDeliveries(line)).toBe(0);
  await sweepOutbox(line);
  line.clock.advance(30 * MINUTE_MS - 1);
  expect(await sweepDeliveries(line)).toBe(0);
  line.clock.advance(1);
  expect(await sweepDeliveries(line)).toBe(1);
  expect(await toldEve(line)).toEqual([['delivered:b', '3 of 3 reached, failed ']]);
  expect((await stateOf(line.db, 'b')).state).toBe('told');
  expect(await sweepDeliveries(line)).toBe(0);
});

test('with every receipt in, at once; a receipt of failure counts as not reached', async () => {
  const line = await sent({});
  await noteReceipt(line.db, receipt(`desk:broadcast:b:${ANN}`, 'delivered'), NOON_MS);
  await noteReceipt(line.db, receipt(`desk:broadcast:b:${BEN}`, 'failed'), NOON_MS);
  expect(await sweepDeliveries(line)).toBe(0);
  await noteReceipt(line.db, receipt(`desk:broadcast:b:${CYN_AND_DAN}`, 'delivered'), NOON_MS);
  expect(await sweepDeliveries(line)).toBe(1);
  expect(await toldEve(line)).toEqual([['delivered:b', '2 of 3 reached, failed A-3']]);
});

test('words that failed: the plots of all on the phone within the blocks, without a label by name and number', async () => {
  const line = await sent({ carrier: refusing(ANN, CYN_AND_DAN) });
  await line.db.updateTable('plots').set({ label: null }).where('id', '=', 'test-valley/p2').execute();
  await plantMany(line.db, 1);
  await line.db
    .updateTable('plots')
    .set({ owner_id: 'test-valley/ann' })
    .where('id', '=', 'm0000000')
    .execute();
  line.clock.advance(HOUR_MS);
  await sweepDeliveries(line);
  expect(await toldEve(line)).toEqual([['delivered:b', '1 of 3 reached, failed A-1 Ann 2 A-4 A-5']]);
});

test('appointments that failed: the plots that had one, of that person', async () => {
  const line = await sent(
    { carrier: refusing(ANN, CYN_AND_DAN) },
    waterOf({ p2: [20_900, 6], p3: [20_900, 7], p5: [20_900, 9] }),
  );
  line.clock.advance(HOUR_MS);
  await sweepDeliveries(line);
  expect(await toldEve(line)).toEqual([['delivered:b', '1 of 3 reached, failed A-2 A-5']]);
});

test('at most twelve plots are named, and how many more there are', async () => {
  const line = await testLine(onTestFinished, {
    carrier: {
      name: 'dead',
      simulated: true,
      partsPerSecond: null,
      send: async () => ({ kind: 'failed', why: 'dead' }),
    },
  });
  await plantMany(line.db, 40);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  await sweepBroadcasts(line);
  await sweepOutbox(line);
  expect(await sweepDeliveries(line)).toBe(1);
  const names = Array.from({ length: 12 }, (_, i) => `Grower ${i} 1`).join(' ');
  expect(await toldEve(line)).toEqual([['delivered:b', `0 of 40 reached, failed ${names} and 28 more`]]);
});

describe('with the real words', () => {
  const voices = readVoices();
  const real = { talk: realTalk, voices };
  const tell = (line: TestLine, phone: string, status: string, errorCode: number | null = null) =>
    takeReceipt(line, { id: null, carrierId: `desk:broadcast:b:${phone}`, status, errorCode });
  const told = async (line: TestLine) => (await toldEve(line)).map(([, text]) => text);

  test('why phones were not reached: stopped, out of service, or else', async () => {
    const line = await sent(real);
    await tell(line, ANN, 'failed', 21_610);
    await tell(line, BEN, 'undelivered', 30_005);
    await tell(line, CYN_AND_DAN, 'undelivered', 30_006);
    await sweepDeliveries(line);
    expect(await told(line)).toEqual([
      'Message to Upper: 0 of 3 phones reached, 3 failed: A-1, A-2, A-3, A-4 and A-5. ' +
        'Why: stopped texts 1, out of service 1 and other reasons 1.',
    ]);
  });

  test('texts that an opt-out has taken back, and those to a number out of service, count so too', async () => {
    const line = await testLine(onTestFinished, real);
    await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
    await sweepBroadcasts(line);
    await purgePhone(line.db, ANN, NOON_MS);
    for (let twice = 0; twice < 2; twice++) await markGone(line.db, BEN);
    await sweepOutbox(line);
    await tell(line, CYN_AND_DAN, 'delivered');
    await sweepDeliveries(line);
    expect(await told(line)).toEqual([
      'Message to Upper: 1 of 3 phones reached, 2 failed: A-1, A-2 and A-3. ' +
        'Why: stopped texts 1 and out of service 1.',
    ]);
  });

  test('a phone out of reach that gets a second text is not told as failed', async () => {
    const line = await sent(real);
    await tell(line, ANN, 'undelivered', 30_003);
    await tell(line, BEN, 'delivered');
    await tell(line, CYN_AND_DAN, 'undelivered', 30_006);
    await sweepDeliveries(line);
    expect(await told(line)).toEqual([
      'Message to Upper: 1 of 3 phones reached, 1 failed: A-4 and A-5. 1 more is tried again.',
    ]);
  });

  test('nobody failed for good: only that some are tried again', async () => {
    const line = await sent(real);
    for (const phone of [ANN, BEN]) await tell(line, phone, 'undelivered', 30_003);
    await tell(line, CYN_AND_DAN, 'delivered');
    await sweepDeliveries(line);
    expect(await told(line)).toEqual(['Message to Upper: 1 of 3 phones reached. 2 more are tried again.']);
  });

  test('a second text that ended before all was told counts by its end', async () => {
    const line = await sent(real);
    for (const phone of [ANN, BEN]) await tell(line, phone, 'undelivered', 30_008);
    line.clock.advance(HOUR_MS);
    await sweepOutbox(line);
    const again = (phone: string, status: string, errorCode: number | null) =>
      takeReceipt(line, { id: null, carrierId: `desk:again:broadcast:b:${phone}`, status, errorCode });
    expect(await again(ANN, 'delivered', null)).toBe(true);
    expect(await again(BEN, 'undelivered', 30_008)).toBe(true);
    await tell(line, CYN_AND_DAN, 'delivered');
    await sweepDeliveries(line);
    expect(await told(line)).toEqual(['Message to Upper: 2 of 3 phones reached, 1 failed: A-3.']);
  });

  test.each(voices.map(({ lang }) => lang))(
    'long names in %s: fewer are named, all is told',
    async (lang) => {
      const line = await testLine(onTestFinished, { ...real, carrier: refusing() });
      await plantMany(line.db, 40);
      await line.db.updateTable('people').set({ lang }).where('id', '=', 'test-valley/eve').execute();
      await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
      await sweepBroadcasts(line);
      for (let i = 0; i < 40; i++) {
        const label = `Lower East terrace, the Okonjos' plot ${i}`;
        await line.db
          .updateTable('plots')
          .set({ label })
          .where('id', '=', `m${String(i).padStart(7, '0')}`)
          .execute();
      }
      const first = await line.db
        .selectFrom('outbox')
        .select('phone')
        .orderBy('key')
        .executeTakeFirstOrThrow();
      await purgePhone(line.db, first.phone, NOON_MS);
      await line.db.updateTable('outbox').set({ state: 'failed' }).where('state', '=', 'queued').execute();
      await sweepDeliveries(line);
      const [text = ''] = await told(line);
      const { parts, encoding } = measure(text);
      expect(parts).toBeLessThanOrEqual(encoding === 'UCS-2' ? 4 : 3);
      const named = text.split('Okonjos').length - 1;
      expect(named).toBeGreaterThan(0);
      expect(named).toBeLessThan(12);
      expect(text).toContain(String(40 - named));
      expect(text).toMatch(/\b1\b.*\b39\b/);
    },
  );
});

test("another broadcast's texts and reminders are not counted", async () => {
  const line = await sent({ carrier: refusing(ANN) });
  await sendBroadcast(line.db, 'b2', wordsOf('canal open'));
  await sendBroadcast(line.db, 'a', wordsOf('before'));
  await sweepBroadcasts(line);
  line.clock.advance(HOUR_MS);
  expect(await sweepDeliveries(line)).toBe(1);
  expect(await toldEve(line)).toEqual([['delivered:b', '2 of 3 reached, failed A-1 A-2']]);
});

test("in the agent's language, and not in quiet hours", async () => {
  const swahili = { ...fakeVoice('sw'), say: () => 'imefika' };
  const line = await sent({ voices: [fakeVoice(), swahili] });
  await line.db.updateTable('people').set({ lang: 'sw' }).where('id', '=', 'test-valley/eve').execute();
  line.clock.set(NOON_MS + 9 * HOUR_MS);
  expect(await sweepDeliveries(line)).toBe(1);
  const row = line.db.selectFrom('outbox').selectAll().where('key', '=', 'delivered:b');
  const sevenMs = NOON_MS + 19 * HOUR_MS;
  expect(await row.executeTakeFirst()).toMatchObject({
    text: 'imefika',
    phone: EVE,
    not_before_ms: sevenMs,
    expires_ms: sevenMs + DAY_MS,
  });
});

test('an agent whose phone takes no texts, or who was forgotten, is told nothing, and no trace stays', async () => {
  const stopped = await sent({});
  await markStopped(stopped.db, EVE, 1);
  const forgotten = await sent({});
  await forgottenEve(forgotten);
  for (const line of [stopped, forgotten]) {
    line.clock.advance(HOUR_MS);
    expect(await sweepDeliveries(line)).toBe(0);
    expect(await toldEve(line)).toEqual([]);
    expect((await stateOf(line.db, 'b')).state).toBe('told');
  }
  const row = await forgotten.db.selectFrom('broadcasts').selectAll().executeTakeFirstOrThrow();
  expect(row.phone).toBe('');
  expect(row.head).not.toMatch(/Eve"|canal/);
});

test('an agent who is forgotten after all was told leaves neither number nor words', async () => {
  const line = await sent({});
  line.clock.advance(HOUR_MS);
  await sweepDeliveries(line);
  await forgottenEve(line);
  const row = await line.db.selectFrom('broadcasts').selectAll().executeTakeFirstOrThrow();
  expect(row.phone).toBe('');
  expect(row.head).not.toMatch(/Eve"|canal/);
});

const forgottenEve = (line: TestLine) => line.together((trx) => forgetPerson(trx, 'test-valley/eve', 'none'));

test('the agent of a broadcast that reached nobody is told so', async () => {
  const line = await sent({}, { ...wordsOf('canal closed'), blockIds: [] });
  expect(await sweepDeliveries(line)).toBe(1);
  expect((await stateOf(line.db, 'b')).state).toBe('told');
  expect(await queuedTexts(line.db)).toHaveLength(1);
});

test('a clock put back by a day does not keep the agent waiting for a day', async () => {
  const line = await sent({});
  line.clock.advance(-DAY_MS);
  expect(await sweepDeliveries(line)).toBe(1);
});

test('two sweeps at the same time tell the agent once', async () => {
  const line = await sent({});
  const other = await testLine(onTestFinished, {
    path: line.path,
    schemeText: null,
    clock: line.clock,
    makeId: line.makeId,
  });
  line.clock.advance(HOUR_MS);
  const told = await Promise.all([sweepDeliveries(line), sweepDeliveries(other), sweepDeliveries(line)]);
  expect(told.reduce((sum, one) => sum + one, 0)).toBe(1);
  expect(await toldEve(line)).toHaveLength(1);
});
