/** What a carrier tells of numbers and settings, at the hand-over and by receipts, over HTTP. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { TOKEN } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { signForm } from '../../src/web/signature.ts';
import { type CarriedLine, carriedLine, outboxRows, queueNow } from '../support/carried-line.ts';
import { PUBLIC_URL } from '../support/rest-texts.ts';
import { DAY_MS, HOUR_MS } from '../support/test-line.ts';
import { ANN, BEN } from '../support/valley-scheme.ts';
import { postForm, smsForm } from '../support/webhook.ts';

const MINUTE_MS = 60_000;
/** From noon: half a day later is midnight, which waits for seven o'clock. */
const UNTIL_SEVEN_MS = 19 * HOUR_MS;
const UNREACHABLE = { status: 'undelivered', code: 30003 } as const;
const GONE = { status: 'undelivered', code: 30005 } as const;
const OPTED_OUT = { status: 'failed', code: 21610 } as const;

/** Slow enough for a busy machine: only what hangs on purpose takes so long. */
const carried = () => carriedLine(onTestFinished, 2000);

/** Sends the text at once; the carrier's own record of it. */
async function sent({ line, fake }: CarriedLine, id: string, phone = ANN, forMs = 2 * DAY_MS) {
  await queueNow(line, id, phone, { forMs });
  await sweepOutbox(line);
  const text = fake.kept.at(-1);
  if (text?.body !== `text ${id}`) throw new Error(`${id} was not taken`);
  return text;
}

/** Ann texts this. */
async function says({ url }: CarriedLine, id: string, words: string) {
  const form = smsForm(id, ANN, words);
  const signature = signForm(TOKEN, `${PUBLIC_URL}/sms`, form);
  expect((await postForm(url, form, { 'X-Twilio-Signature': signature })).status).toBe(200);
}

const ends = async ({ line }: CarriedLine) =>
  (await outboxRows(line)).map(({ key, state, why }) => [key, state, why]);
const consents = ({ line }: CarriedLine) =>
  line.db.selectFrom('consents').select(['phone', 'kind', 'words']).where('phone', '=', ANN).execute();

describe('a phone that cannot be reached (30003)', () => {
  test('gets its text once more, half a day later when the night is over, and not a third time', async () => {
    const all = await carried();
    const first = await sent(all, 'k');
    for (const status of [UNREACHABLE, UNREACHABLE, { status: 'sent' }])
      expect(await all.fake.tell(first, status)).toBe(204);
    expect(await ends(all)).toEqual([
      ['k', 'failed', 'error 30003'],
      ['again:k', 'queued', null],
    ]);
    all.line.clock.advance(UNTIL_SEVEN_MS - 1);
    expect(await sweepOutbox(all.line)).toBe(0);
    all.line.clock.advance(1);
    expect(await sweepOutbox(all.line)).toBe(1);
    const second = all.fake.kept[1];
    expect(second).toMatchObject({ to: ANN, body: 'text k' });
    if (second) await all.fake.tell(second, UNREACHABLE);
    all.line.clock.advance(DAY_MS);
    await sweepOutbox(all.line);
    expect(all.fake.kept).toHaveLength(2);
    expect(await ends(all)).toEqual(['k', 'again:k'].map((key) => [key, 'failed', 'error 30003']));
  });

  test('gets nothing more when the text is worth nothing by then', async () => {
    const all = await carried();
    const first = await sent(all, 'k', ANN, UNTIL_SEVEN_MS);
    await all.fake.tell(first, UNREACHABLE);
    expect(await ends(all)).toEqual([['k', 'failed', 'error 30003']]);
  });

  test('gets nothing more when its owner has opted out meanwhile', async () => {
    const all = await carried();
    const first = await sent(all, 'k');
    await says(all, 'SM1', 'stop');
    await all.fake.tell(first, UNREACHABLE);
    expect(await ends(all)).toEqual([['k', 'failed', 'error 30003']]);
  });

  test('gets the second text even when its end was in doubt: the first is not taken for it', async () => {
    const all = await carried();
    const first = await sent(all, 'k');
    all.line.clock.advance(MINUTE_MS);
    await all.fake.tell(first, UNREACHABLE);
    all.line.clock.advance(UNTIL_SEVEN_MS);
    all.fake.ways.post = ({ time }) => (time === 2 ? 'fault-before' : 'accept');
    await sweepOutbox(all.line);
    all.line.clock.advance(2 * MINUTE_MS);
    expect(await sweepOutbox(all.line)).toBe(1);
    expect(all.fake.kept).toHaveLength(2);
    expect((await outboxRows(all.line)).map((row) => row.carrier_id)).toEqual(
      all.fake.kept.map((one) => one.sid),
    );
  });
});

describe('a number that is gone (30005)', () => {
  test('is texted no more after the second time, until somebody texts from it', async () => {
    const all = await carried();
    const [one, two] = [await sent(all, 'a'), await sent(all, 'b')];
    for (const _twice of [1, 2]) await all.fake.tell(one, GONE);
    await sent(all, 'c');
    await all.fake.tell(two, GONE);
    await queueNow(all.line, 'd', ANN);
    await queueNow(all.line, 'e', BEN);
    expect(await sweepOutbox(all.line)).toBe(1);
    expect(await ends(all)).toEqual([
      ['a', 'failed', 'error 30005'],
      ['b', 'failed', 'error 30005'],
      ['c', 'handed', null],
      ['d', 'failed', 'number gone'],
      ['e', 'handed', null],
    ]);
    await says(all, 'SM1', 'hello');
    await sent(all, 'f');
  });

  test('is not gone when a text has arrived in between', async () => {
    const all = await carried();
    for (const [id, receipt] of [
      ['a', GONE],
      ['b', { status: 'delivered' }],
      ['c', GONE],
    ] as const)
      await all.fake.tell(await sent(all, id), receipt);
    await sent(all, 'd');
  });

  test('is gone by two refusals at the hand-over as well', async () => {
    const all = await carried();
    all.fake.ways.post = () => ({ status: 400, code: 30005 });
    for (const id of ['a', 'b', 'c']) {
      await queueNow(all.line, id, ANN);
      await sweepOutbox(all.line);
    }
    expect(all.fake.posts).toHaveLength(2);
    expect((await ends(all)).map(([, , why]) => why)).toEqual(['error 30005', 'error 30005', 'number gone']);
  });
});

describe('a number that has opted out at the carrier (21610)', () => {
  const STOPPED = [{ phone: ANN, kind: 'stopped', words: '(told by the carrier)' }];

  test('told at the hand-over of several texts: stopped, its queue purged, one consent row', async () => {
    const all = await carried();
    all.fake.ways.post = ({ to }) => (to === ANN ? { status: 400, code: 21610 } : 'accept');
    for (const id of ['a', 'b']) await queueNow(all.line, id, ANN);
    await queueNow(all.line, 'c', ANN, { inMs: HOUR_MS });
    await queueNow(all.line, 'e', BEN);
    await sweepOutbox(all.line);
    all.line.clock.advance(HOUR_MS);
    await sweepOutbox(all.line);
    expect(all.fake.posts.map(({ body }) => body).sort()).toEqual(['text a', 'text b', 'text e']);
    const whys = (await ends(all)).map(([, , why]) => why);
    expect(whys[2]).toBe('opted-out');
    for (const why of whys.slice(0, 2)) expect(['error 21610', 'opted-out']).toContain(why);
    expect(await consents(all)).toEqual(STOPPED);
  });

  test('told by receipts: the same, and START brings the number back', async () => {
    const all = await carried();
    const [one, two] = [await sent(all, 'a'), await sent(all, 'b')];
    await queueNow(all.line, 'c', ANN);
    for (const text of [one, one, two]) await all.fake.tell(text, OPTED_OUT);
    await sweepOutbox(all.line);
    expect(await ends(all)).toEqual([
      ['a', 'failed', 'error 21610'],
      ['b', 'failed', 'error 21610'],
      ['c', 'failed', 'opted-out'],
    ]);
    expect(await consents(all)).toEqual(STOPPED);
    await says(all, 'SM1', 'start');
    await sent(all, 'd');
    expect((await consents(all)).map(({ kind }) => kind)).toEqual(['stopped', 'started']);
  });
});

describe('a wrong password (20003)', () => {
  /** Sweeps through some hours in steps longer than the wait between alarms. */
  async function pass({ line }: CarriedLine, hours: number): Promise<void> {
    for (let minutes = 0; minutes < hours * 60; minutes += 15) {
      await sweepOutbox(line);
      line.clock.advance(15 * MINUTE_MS);
    }
  }

  test('holds texts, and says so in the log, until it is mended; then they have all their tries', async () => {
    const all = await carried();
    for (const id of ['a', 'b', 'c']) await queueNow(all.line, id, ANN);
    all.fake.ways.token = 'another';
    await pass(all, 4);
    expect((await ends(all)).map(([, state]) => state)).toEqual(['queued', 'queued', 'queued']);
    const alarms = all.line.log.lines.filter((one) => one.includes('check the settings'));
    expect(alarms.length).toBeGreaterThan(10);
    expect(all.line.log.lines.join('\n')).not.toMatch(/7700900|secret|another/);
    all.fake.ways.token = TOKEN;
    all.fake.ways.post = ({ time }) => (time <= 3 ? { status: 429, code: 20429 } : 'accept');
    await pass(all, 1);
    expect((await ends(all)).map(([, state]) => state)).toEqual(['handed', 'handed', 'handed']);
    expect(all.fake.kept).toHaveLength(3);
  });

  test('a text in doubt is held just so, and is not sent twice afterwards', async () => {
    const all = await carried();
    all.fake.ways.post = () => 'reset-after';
    await queueNow(all.line, 'a', ANN);
    await sweepOutbox(all.line);
    all.fake.ways.token = 'another';
    await pass(all, 4);
    expect((await ends(all)).map(([, state]) => state)).toEqual(['queued']);
    expect(all.line.log.lines.join('\n')).toContain('check the settings');
    all.fake.ways.token = TOKEN;
    await pass(all, 1);
    expect((await ends(all)).map(([, state]) => state)).toEqual(['handed']);
    expect(all.fake.kept).toHaveLength(1);
  });
});
