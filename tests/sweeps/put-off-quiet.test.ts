/** The night: what the line sends on its own waits for the morning, whatever has delayed it; answers do not wait. */
import { describe, expect, onTestFinished, test } from 'vitest';
import type { Carrier } from '../../src/carriers/carrier.ts';
import { performEffects } from '../../src/sweeps/perform.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { outboxRows, queueNow } from '../support/carried-line.ts';
import { DAY_MS, HOUR_MS, NOON_MS, type TestLine, testLine } from '../support/test-line.ts';
import { ANN, BEN, STRANGER, VALLEY } from '../support/valley-scheme.ts';

/** Of the test's day, in Nairobi. */
const EVENING_MS = NOON_MS + 8 * HOUR_MS;
const MORNING_MS = NOON_MS + 19 * HOUR_MS;

const OWN = ['reminder', 'broadcast:b', 'digest', 'delivered', 'text:b', 'again:text:b', 'again:reply'];
const ANSWERS = ['reply', 'screen'];

/** A carrier that keeps what it takes, or takes nothing for now. */
function carrierThat(does: { takes: boolean }) {
  const taken: string[] = [];
  const carrier: Carrier = {
    name: 'kept',
    simulated: true,
    partsPerSecond: null,
    send: async ({ key }) => {
      if (!does.takes) return { kind: 'retry', why: 'busy' };
      taken.push(key);
      return { kind: 'handed', carrierId: `C${key}` };
    },
  };
  return { carrier, taken };
}

async function lineWith(does = { takes: true }, schemeText = VALLEY) {
  const { carrier, taken } = carrierThat(does);
  return { line: await testLine(onTestFinished, { carrier, schemeText }), taken };
}

async function queueAll(line: TestLine, kinds: readonly string[], phone = ANN) {
  for (const kind of kinds) await queueNow(line, `${kind}:${phone}`, phone);
}

describe('texts that are queued by day and were not sent, as the machine was off', () => {
  test('wait for the end of the night, those of strangers too', async () => {
    const { line, taken } = await lineWith();
    for (const phone of [ANN, STRANGER]) await queueAll(line, OWN, phone);
    line.clock.set(EVENING_MS);
    expect(await sweepOutbox(line)).toBe(0);
    line.clock.set(MORNING_MS - 1);
    expect(await sweepOutbox(line)).toBe(0);
    expect(taken).toEqual([]);
    line.clock.set(MORNING_MS);
    expect(await sweepOutbox(line)).toBe(2 * OWN.length);
  });

  test('lose no try by waiting, and are no more in doubt than they were', async () => {
    const { line } = await lineWith();
    await queueAll(line, OWN);
    line.clock.set(EVENING_MS);
    for (const _sweep of [1, 2, 3]) await sweepOutbox(line);
    const rows = await outboxRows(line);
    expect(rows).toHaveLength(OWN.length);
    for (const row of rows)
      expect(row).toMatchObject({ state: 'queued', attempts: 0, doubtful: 0, not_before_ms: MORNING_MS });
  });

  test('are dropped in the morning when they are worth nothing any more', async () => {
    const { line, taken } = await lineWith();
    await queueNow(line, 'text:short', ANN, { forMs: 18 * HOUR_MS });
    line.clock.set(EVENING_MS);
    await sweepOutbox(line);
    line.clock.set(MORNING_MS);
    await sweepOutbox(line);
    expect(taken).toEqual([]);
    expect(await outboxRows(line)).toMatchObject([{ state: 'failed', why: 'expired' }]);
  });
});

test('answers to a person’s own text or dial go out at night', async () => {
  const { line, taken } = await lineWith();
  line.clock.set(EVENING_MS);
  await queueAll(line, [...ANSWERS, ...OWN]);
  expect(await sweepOutbox(line)).toBe(ANSWERS.length);
  expect(taken).toEqual(ANSWERS.map((kind) => `${kind}:${ANN}`));
});

test('a text that the carrier would not take before the night is tried again after it', async () => {
  const does = { takes: false };
  const { line, taken } = await lineWith(does);
  line.clock.set(EVENING_MS - 30_000);
  await queueAll(line, ['text']);
  await sweepOutbox(line);
  does.takes = true;
  line.clock.set(EVENING_MS + 10 * 60_000);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.set(MORNING_MS);
  expect(await sweepOutbox(line)).toBe(1);
  expect(taken).toEqual([`text:${ANN}`]);
});

test('held texts of one round do not keep the answers behind them back', async () => {
  const { line, taken } = await lineWith();
  for (let count = 0; count < 60; count++) await queueNow(line, `text:${count}:${BEN}`, BEN);
  line.clock.set(EVENING_MS);
  await queueAll(line, ['reply']);
  expect(await sweepOutbox(line)).toBe(1);
  expect(taken).toEqual([`reply:${ANN}`]);
});

test.each([
  ['forward', '2027-03-27T21:00:00Z', '2027-03-28T06:00:00Z'],
  ['back', '2027-10-30T20:00:00Z', '2027-10-31T07:00:00Z'],
])('a night in which the clock is put %s ends at seven by the clock', async (_way, evening, morning) => {
  const london = VALLEY.replace('Africa/Nairobi', 'Europe/London');
  const { line } = await lineWith({ takes: true }, london);
  line.clock.set(Date.parse(evening));
  await queueAll(line, ['text']);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.set(Date.parse(morning) - 1);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.set(Date.parse(morning));
  expect(await sweepOutbox(line)).toBe(1);
});

test('a text of an agent’s order at night is queued for the morning, and lives for a day from there', async () => {
  const { line } = await lineWith();
  line.clock.set(EVENING_MS);
  const saying = { sentences: [{ key: 'any' }] };
  const cause = {
    batch: 'b',
    phone: BEN,
    turn: 1,
    nowMs: EVENING_MS,
    schemeId: 'test-valley',
    words: 'x',
    lang: 'en',
  };
  await line.together((trx) =>
    performEffects(trx, line, [{ do: 'text', phone: ANN, lang: 'en', saying }], cause),
  );
  expect(await outboxRows(line)).toMatchObject([
    { not_before_ms: MORNING_MS, expires_ms: MORNING_MS + DAY_MS },
  ]);
});
