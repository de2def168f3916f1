import { describe, expect, onTestFinished, test } from 'vitest';
import { LEASE_MS, leaseTexts, queueText } from '../../src/store/outbox.ts';
import { DATABASES } from '../support/databases.ts';
import { DAY_MS, HOUR_MS, NOON_MS } from '../support/test-line.ts';
import { ANN } from '../support/valley-scheme.ts';

describe.each(DATABASES)('$name', ({ open }) => {
  /** A text on lease since noon; how many texts a sender gets who reads the clock at another time. */
  async function leasedAtNoon(readMs: number): Promise<number> {
    const db = await open(onTestFinished);
    const row = { id: 'k', key: 'k', phone: ANN, text: 'x', notBeforeMs: 0, expiresMs: NOON_MS + DAY_MS };
    await queueText(db, row, NOON_MS - DAY_MS, null);
    expect(await leaseTexts(db, NOON_MS, 10)).toHaveLength(1);
    return (await leaseTexts(db, readMs, 10)).length;
  }

  test.each([
    ['who read the clock a moment before', NOON_MS - 1, 0],
    ['whose clock is a little slow', NOON_MS - LEASE_MS, 0],
    ['at the same time', NOON_MS, 0],
    ['just before the lease ends', NOON_MS + LEASE_MS - 1, 0],
    ['when the lease has ended', NOON_MS + LEASE_MS, 1],
    ['after the clock was put back far', NOON_MS - HOUR_MS, 1],
  ])('another sender %s', async (_name, readMs, most) => {
    expect(await leasedAtNoon(readMs)).toBe(most);
  });
});
