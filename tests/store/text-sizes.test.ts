import { join } from 'node:path';
import { Migrator } from 'kysely';
import { describe, expect, onTestFinished, test } from 'vitest';
import { splitParts } from '../../src/say/parts.ts';
import { MIGRATIONS, migrate } from '../../src/store/migrate.ts';
import { openDatabase } from '../../src/store/open.ts';
import { markHanded, queueText, queueTexts } from '../../src/store/outbox.ts';
import { noteReceipt } from '../../src/store/receipts.ts';
import { sweepBroadcasts } from '../../src/sweeps/sweep-broadcasts.ts';
import { takeText } from '../../src/web/take-text.ts';
import { sendBroadcast, wordsOf } from '../support/broadcasts.ts';
import { DATABASES } from '../support/databases.ts';
import { NOON_MS, newFolder, testLine } from '../support/test-line.ts';
import { ANN, VALLEY } from '../support/valley-scheme.ts';
import { postForm, smsForm, startWeb, text as textLine } from '../support/webhook.ts';

const PRICE = { amount: 0.1, currency: 'GBP' };
const PRICED = `${VALLEY}\npricePerPart: { amount: 0.1, currency: GBP }\n`;
const LONG = 'é'.repeat(400);
const WIDE = 'পা'.repeat(80);

const newText = (id: string, text: string) => ({
  ...{ id, key: id, phone: ANN, text, notBeforeMs: NOON_MS },
  expiresMs: NOON_MS + 1,
});

describe.each(DATABASES)('$name', ({ open }) => {
  test('a queued text is measured, and costs its parts at the price of that time', async () => {
    const db = await open(onTestFinished);
    await queueText(db, newText('a', LONG), NOON_MS, PRICE);
    await queueTexts(db, [newText('b', WIDE), newText('c', WIDE), newText('d', 'x')], NOON_MS, PRICE);
    await queueText(db, newText('e', 'x'), NOON_MS, null);
    const rows = await db.selectFrom('outbox').selectAll().orderBy('id').execute();
    expect(
      rows.map(({ encoding, units, parts, price, currency }) => [encoding, units, parts, price, currency]),
    ).toEqual([
      ['GSM-7', 400, splitParts(LONG).length, '0.3', 'GBP'],
      ['UCS-2', 160, splitParts(WIDE).length, '0.3', 'GBP'],
      ['UCS-2', 160, splitParts(WIDE).length, '0.3', 'GBP'],
      ['GSM-7', 1, 1, '0.1', 'GBP'],
      ['GSM-7', 1, 1, null, null],
    ]);
  });

  test('when it was handed over stays, whatever receipts come later; a receipt may be the first to tell', async () => {
    const db = await open(onTestFinished);
    await queueTexts(db, [newText('a', 'x'), newText('b', 'x'), newText('c', 'x')], NOON_MS, null);
    await markHanded(db, 'a', { carrierId: 'A' }, NOON_MS + 1);
    const receipt = { step: 3, state: 'delivered', why: null } as const;
    await noteReceipt(db, { ...receipt, id: 'a', carrierId: 'A' }, NOON_MS + 9);
    await noteReceipt(db, { ...receipt, id: 'b', carrierId: 'B' }, NOON_MS + 5);
    const rows = await db.selectFrom('outbox').select(['id', 'handed_ms']).orderBy('id').execute();
    expect(rows.map(({ handed_ms }) => handed_ms)).toEqual([NOON_MS + 1, NOON_MS + 5, null]);
  });
});

test('a text in is kept with its size, the carrier’s count, and the size and price of its answer', async () => {
  const line = await testLine(onTestFinished, { schemeText: PRICED });
  const { url } = await startWeb(line, onTestFinished);
  await postForm(url, { ...smsForm('SM1', ANN, LONG), NumSegments: '4' });
  await postForm(url, { ...smsForm('SM2', ANN, 'ploughed 1'), NumSegments: 'many' });
  await takeText(line, { carrierId: 'SM3', from: ANN, text: 'STOP', optOut: 'stop' });
  const rows = await line.db.selectFrom('texts_in').selectAll().orderBy('turn').execute();
  expect(rows[0]).toMatchObject({ encoding: 'GSM-7', units: 400, parts: 3, carrier_parts: 4 });
  const units = rows[0]?.answer?.length ?? 0;
  expect(rows[0]).toMatchObject({ answer_encoding: 'GSM-7', answer_units: units, currency: 'GBP' });
  expect(Number(rows[0]?.answer_price)).toBeCloseTo(Math.ceil(units / 153) * 0.1, 9);
  expect(rows[1]).toMatchObject({ parts: 1, carrier_parts: null, answer_parts: 1, answer_price: '0.1' });
  expect(rows[2]).toMatchObject({
    parts: 1,
    answer: null,
    answer_parts: null,
    answer_price: null,
    currency: null,
  });
});

test('a fault’s short sorry is measured too', async () => {
  const line = await testLine(onTestFinished, { schemeText: PRICED });
  const { url } = await startWeb(line, onTestFinished);
  await textLine(url, 'SM1', ANN, 'boom');
  const [row] = await line.db.selectFrom('texts_in').selectAll().execute();
  expect(row).toMatchObject({ faulty: 1, answer_parts: 1, answer_price: '0.1', parts: 1, carrier_parts: 1 });
});

test('the texts of a broadcast have the price of its scheme', async () => {
  const line = await testLine(onTestFinished, { schemeText: PRICED });
  await sendBroadcast(line.db, 'one', wordsOf('The canal is shut.'));
  await sweepBroadcasts(line);
  const rows = await line.db.selectFrom('outbox').select(['parts', 'price', 'currency']).execute();
  expect(rows.length).toBeGreaterThan(2);
  expect(new Set(rows.map((row) => JSON.stringify(row)))).toEqual(
    new Set([JSON.stringify({ parts: 1, price: '0.1', currency: 'GBP' })]),
  );
});

test('texts of before are measured when the database is brought to the new shape', async () => {
  const db = openDatabase(join(newFolder(onTestFinished), 'old.db'));
  onTestFinished(() => db.destroy());
  const old = Object.fromEntries(Object.entries(MIGRATIONS).filter(([name]) => name < '0005'));
  await new Migrator({ db, provider: { getMigrations: async () => old } }).migrateToLatest();
  const row = { phone: ANN, created_ms: 1, not_before_ms: 1, expires_ms: 2, lease_until_ms: 0, attempts: 1 };
  const taken = { ...row, state: 'delivered', carrier_id: 'A', settled_ms: 7 } as const;
  await db
    .insertInto('outbox')
    .values({ ...taken, id: 'a', key: 'a', text: LONG })
    .execute();
  await db
    .insertInto('outbox')
    .values({ ...row, id: 'b', key: 'b', text: WIDE, state: 'queued' })
    .execute();
  await migrate(db);
  const rows = await db
    .selectFrom('outbox')
    .select(['encoding', 'parts', 'price', 'handed_ms'])
    .orderBy('id')
    .execute();
  expect(rows).toEqual([
    { encoding: 'GSM-7', parts: 3, price: null, handed_ms: 7 },
    { encoding: 'UCS-2', parts: 3, price: null, handed_ms: null },
  ]);
});
