/** The weekly text to agents: on its day, once, to those who take texts, and caught up after a fault of the machine. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { markStopped } from '../../src/store/talks.ts';
import { digestDay, sweepDigests } from '../../src/sweeps/sweep-digests.ts';
import { DAY_MS, HOUR_MS, type TestLine, testLine } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

/** The test's clock stands at noon on Wednesday 10 March 2027 in Nairobi; reminders go out from 17:00. */
async function onMonday(scheme = VALLEY): Promise<TestLine> {
  const line = await testLine(onTestFinished, { schemeText: scheme });
  line.clock.advance(5 * DAY_MS + 6 * HOUR_MS);
  return line;
}
const texts = ({ db }: TestLine) => db.selectFrom('outbox').select(['phone', 'text', 'key']).execute();

test('goes to each agent on Monday from the scheme’s hour on, once', async () => {
  const line = await onMonday();
  expect(await sweepDigests(line)).toBe(1);
  expect(await sweepDigests(line)).toBe(0);
  expect(await texts(line)).toEqual([
    { phone: '+447700900990', text: 'digest of 5', key: 'digest:+447700900990:2027-03-15' },
  ]);
});

test('not before that hour', async () => {
  const line = await onMonday();
  line.clock.advance(-2 * HOUR_MS);
  expect(await sweepDigests(line)).toBe(0);
});

test('on another weekday where the scheme says so', async () => {
  const line = await onMonday(VALLEY.replace('remindAt:', 'digestOn: 4\nremindAt:'));
  expect(await sweepDigests(line)).toBe(0);
  line.clock.advance(3 * DAY_MS);
  expect(await sweepDigests(line)).toBe(1);
});

test('two days later it is caught up, three days later no more', async () => {
  const line = await onMonday();
  line.clock.advance(2 * DAY_MS);
  expect(await sweepDigests(line)).toBe(1);
  const other = await onMonday();
  other.clock.advance(3 * DAY_MS);
  expect(await sweepDigests(other)).toBe(0);
});

test('next week there is another', async () => {
  const line = await onMonday();
  await sweepDigests(line);
  line.clock.advance(7 * DAY_MS);
  expect(await sweepDigests(line)).toBe(1);
});

test('an agent who has stopped texts gets none', async () => {
  const line = await onMonday();
  await markStopped(line.db, '+447700900990', 1);
  expect(await sweepDigests(line)).toBe(0);
  expect(await texts(line)).toEqual([]);
});

test('a fault is logged, and keeps nobody else’s back', async () => {
  const line = await onMonday();
  const broken = {
    ...line,
    talk: {
      ...line.talk,
      digest: () => {
        throw new Error('no digest');
      },
    },
  };
  expect(await sweepDigests(broken)).toBe(0);
  expect(line.log.lines.join()).toMatch(/a digest could not be made/);
  expect(line.log.lines.join()).not.toContain('+447700900990');
});

describe('the day of a digest', () => {
  // 20890 is Saturday 13 March 2027.
  test.each([
    [20890, 6, 20890],
    [20891, 6, 20890],
    [20892, 6, 20890],
    [20893, 6, null],
    [20896, 6, null],
    [20897, 6, 20897],
    [20892, 1, 20892],
  ])('on day %i, for weekday %i: %s', (today, weekday, day) => expect(digestDay(today, weekday)).toBe(day));
});
