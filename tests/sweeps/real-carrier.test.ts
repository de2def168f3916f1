/** The line, its HTTP side and a carrier that misbehaves, all real but for the carrier: what reaches phones, and how it ends. */
import { expect, onTestFinished, test } from 'vitest';
import type { FakeCarrier } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { type CarriedLine, carriedLine, outboxRows, queueNow } from '../support/carried-line.ts';
import { type Fate, fatesOf, mixed } from '../support/misdeeds.ts';

const TEXTS = 200;
const MINUTE_MS = 60_000;
/** Far more than retries of a day take. */
const MOST_ROUNDS = 150;

const phoneOf = (i: number) => `+447700900${100 + i}`;
const placeOf = (phone: string) => Number(phone.slice(-3)) - 100;

/** Lets the fates befall the texts of their phones. */
function befall({ fake: { ways } }: CarriedLine, fates: readonly Fate[]): void {
  const looked = new Map<string, number>();
  ways.post = ({ to, time }) => fates[placeOf(to)]?.posts[time - 1] ?? 'accept';
  ways.list = (_count, url) => {
    const to = url.searchParams.get('To') ?? '';
    const time = (looked.get(to) ?? 0) + 1;
    looked.set(to, time);
    return fates[placeOf(to)]?.lists[time - 1] ?? 'accept';
  };
  ways.reports = ({ to }) => fates[placeOf(to)] ?? {};
}

/** Sweeps until nothing waits, with receipts that come late, twice and out of order. */
async function comeToRest({ line, fake }: CarriedLine, sweep: () => Promise<unknown>): Promise<void> {
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    await sweep();
    if (round % 2 === 1) expect(new Set(await fake.deliver((all) => mixed(all, round)))).not.toContain(403);
    const queued = (await outboxRows(line)).filter(({ state }) => state === 'queued');
    if (queued.length === 0) break;
    line.clock.advance(5 * MINUTE_MS);
  }
  await fake.deliver((all) => mixed(all, MOST_ROUNDS));
}

const timesOf = ({ kept }: FakeCarrier, phone: string) => kept.filter(({ to }) => to === phone).length;

/** How often a text must have been accepted, and how it must end. */
function endOf({ end, early, later, posts }: Fate) {
  const told = [...early, ...later].map(({ status }) => status);
  switch (end) {
    case 'arrives':
      return { times: 1, ...endTold(told, { state: 'handed' }) };
    case 'lost-track':
      return { times: 1, ...endTold(told, { state: 'failed', why: 'expired' }) };
    case 'refused':
      return { times: 0, state: 'failed', why: `error ${(posts.at(-1) as { code: number }).code}` };
    case 'expired':
      return { times: 0, state: 'failed', why: 'expired' };
  }
}

function endTold(told: readonly string[], untold: object): object {
  if (told.includes('undelivered')) return { state: 'failed', why: 'error 30006' };
  if (told.includes('delivered') || told.includes('read')) return { state: 'delivered', why: null };
  return told.length > 0 ? { state: 'handed' } : untold;
}

test.each([1])(
  'two hundred texts over a carrier that does all it can wrong: none twice, none lost (seed %d)',
  async (seed) => {
    const carried = await carriedLine(onTestFinished, 1500);
    const { line, fake } = carried;
    const fates = fatesOf(TEXTS, seed);
    befall(carried, fates);
    for (const [i, { forMs }] of fates.entries()) await queueNow(line, `k${100 + i}`, phoneOf(i), { forMs });
    await comeToRest(carried, () => Promise.all([sweepOutbox(line), sweepOutbox(line)]));
    const rows = await outboxRows(line);
    const ends = rows.map(({ state, why, phone }) => ({ times: timesOf(fake, phone), state, why }));
    for (const [i, fate] of fates.entries())
      expect({ i, ...ends[i] }, JSON.stringify(fate)).toMatchObject(endOf(fate));
    expect(fake.kept.length).toBe(ends.filter(({ times }) => times === 1).length);
  },
  60_000,
);
