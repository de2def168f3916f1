/**
 * Senders as processes of their own: killed between lease and hand-over, and between the carrier's acceptance and our note of
 * it; and two on one file. The carrier drops nothing by its key: what it accepts twice, a phone gets twice.
 */
import { beforeAll, expect, onTestFinished, test } from 'vitest';
import type { FakeCarrier } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { LEASE_MS } from '../../src/store/outbox.ts';
import { outboxRows, queueNow } from '../support/carried-line.ts';
import { fakeCarrier } from '../support/fake-carrier.ts';
import { buildServer } from '../support/real-server.ts';
import { accountAt } from '../support/rest-texts.ts';
import { type Sender, startSender } from '../support/sender.ts';
import { NOON_MS, type TestLine, testLine } from '../support/test-line.ts';

beforeAll(buildServer, 180_000);

/** Leased at once by one sender. */
const TOGETHER = 50;
const phoneOf = (i: number) => `+447700900${100 + i}`;

interface Scene {
  readonly line: TestLine;
  readonly fake: FakeCarrier;
  readonly phones: readonly string[];
  /** A sender that is open, at an instant so long after noon. */
  sender(
    afterMs: number,
    settings?: { readonly hold?: boolean; readonly timeoutMs?: number },
  ): Promise<Sender>;
}

async function scene(texts: number): Promise<Scene> {
  const fake = await fakeCarrier(onTestFinished, { nowMs: () => NOON_MS });
  const line = await testLine(onTestFinished);
  const phones = Array.from({ length: texts }, (_, i) => phoneOf(i));
  for (const [i, phone] of phones.entries()) await queueNow(line, `k${100 + i}`, phone);
  const sender: Scene['sender'] = (afterMs, { hold = false, timeoutMs = 20_000 } = {}) => {
    const account = accountAt(fake.url, { timeoutMs });
    return startSender({ path: line.path, account, nowMs: NOON_MS + afterMs, hold }, onTestFinished);
  };
  return { line, fake, phones, sender };
}

const reached = ({ kept }: FakeCarrier) => kept.map(({ to }) => to).sort();
const statesOf = async (line: TestLine) => new Set((await outboxRows(line)).map(({ state }) => state));

/** Resolves when the carrier has accepted so many, or been asked so often. */
async function until(count: () => number, most: number): Promise<void> {
  while (count() < most) await new Promise((resolve) => setTimeout(resolve, 5));
}

test('killed between lease and hand-over: each text is accepted once, after the lease', async () => {
  const { line, fake, phones, sender } = await scene(12);
  const first = await sender(0, { hold: true });
  first.go();
  await first.said('holding');
  first.kill();
  expect(await first.end).toBeNull();
  expect(await outboxRows(line)).toMatchObject(
    phones.map(() => ({ state: 'queued', doubtful: 1, attempts: 1 })),
  );
  const early = await sender(LEASE_MS / 2);
  early.go();
  expect(await early.end).toBe(0);
  const next = await sender(2 * LEASE_MS);
  next.go();
  expect(await next.end).toBe(12);
  expect(reached(fake)).toEqual(phones);
  // In doubt, each was asked for first.
  expect(fake.lists).toHaveLength(12);
  expect(await statesOf(line)).toEqual(new Set(['handed']));
});

test('killed between acceptance and note: each text is accepted once, and known by the carrier’s own id', async () => {
  const { line, fake, phones, sender } = await scene(12);
  fake.ways.post = () => 'hang-after';
  const first = await sender(0);
  first.go();
  await until(() => fake.kept.length, 12);
  first.kill();
  expect(await first.end).toBeNull();
  expect(await statesOf(line)).toEqual(new Set(['queued']));
  fake.ways.post = () => 'accept';
  const next = await sender(2 * LEASE_MS);
  next.go();
  expect(await next.end).toBe(12);
  expect(fake.posts).toHaveLength(12);
  expect(reached(fake)).toEqual(phones);
  const sids = new Map(fake.kept.map(({ to, sid }) => [to, sid]));
  for (const row of await outboxRows(line))
    expect(row).toMatchObject({ state: 'handed', carrier_id: sids.get(row.phone), carrier_parts: 1 });
});

test('killed again and again, wherever its texts are: each is accepted once', async () => {
  const { line, fake, phones, sender } = await scene(60);
  const deeds = { 0: 'accept', 1: 'hang-after', 2: 'accept', 3: 'hang-before' } as const;
  fake.ways.post = ({ to, time }) => {
    const deed = deeds[(Number(to.slice(-3)) % 4) as 0 | 1 | 2 | 3];
    if (time === 1) return deed;
    return time === 2 && deed === 'hang-before' ? 'hang-after' : 'accept';
  };
  const asked = () => fake.posts.length + fake.lists.length;
  for (const [i, most] of [3, 12, 8].entries()) {
    const killed = await sender(2 * i * LEASE_MS);
    const before = asked();
    killed.go();
    await until(() => asked() - before, most);
    killed.kill();
    expect(await killed.end).toBeNull();
  }
  expect((await outboxRows(line)).some(({ state }) => state === 'handed')).toBe(true);
  expect((await outboxRows(line)).some(({ state }) => state === 'queued')).toBe(true);
  fake.ways.post = () => 'accept';
  const last = await sender(6 * LEASE_MS);
  last.go();
  await last.end;
  expect(reached(fake)).toEqual(phones);
  expect(await statesOf(line)).toEqual(new Set(['handed']));
}, 60_000);

test('two on one file: what one has on lease, the other leaves alone', async () => {
  const { line, fake, phones, sender } = await scene(120);
  fake.ways.post = () => 'hang-before';
  const [one, two] = [await sender(0, { timeoutMs: 8000 }), await sender(0)];
  one.go();
  await until(() => fake.posts.length, TOGETHER);
  const held = new Set(fake.posts.map(({ to }) => to));
  fake.ways.post = () => 'accept';
  two.go();
  expect(await two.end).toBe(120 - TOGETHER);
  expect(fake.kept.some(({ to }) => held.has(to))).toBe(false);
  expect(await one.end).toBe(0);
  const later = await sender(5 * LEASE_MS);
  later.go();
  expect(await later.end).toBe(TOGETHER);
  expect(reached(fake)).toEqual(phones);
  expect(await statesOf(line)).toEqual(new Set(['handed']));
}, 60_000);

test('two that start at once on one file: nothing is accepted twice', async () => {
  const { line, fake, phones, sender } = await scene(200);
  const both = [await sender(0), await sender(0)];
  for (const each of both) each.go();
  const taken = await Promise.all(both.map(({ end }) => end));
  expect(taken.reduce((sum: number, each) => sum + (each ?? 0), 0)).toBe(200);
  expect(reached(fake)).toEqual(phones);
  expect(await statesOf(line)).toEqual(new Set(['handed']));
}, 60_000);
