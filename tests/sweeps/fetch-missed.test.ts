import { expect, onTestFinished, test } from 'vitest';
import { listTextsIn } from '../../src/carriers/rest-list.ts';
import { fetchMissed } from '../../src/sweeps/fetch-missed.ts';
import type { Line } from '../../src/sweeps/line.ts';
import { takeText } from '../../src/web/take-text.ts';
import { ASHA, agentLine, DEMBE, OFFICE } from '../support/agent-line.ts';
import { fakeRestList, listedText } from '../support/fake-rest-list.ts';
import { DAY_MS, HOUR_MS, NOON_MS, testLine } from '../support/test-line.ts';
import { ANN, BEN } from '../support/valley-scheme.ts';
import { startWeb, text } from '../support/webhook.ts';

const MINUTE_MS = 60_000;

async function fetchFrom(line: Line, texts: readonly unknown[], sinceMs: number | null = null) {
  const { account } = await fakeRestList(onTestFinished, { texts, pageSize: 2 });
  return fetchMissed(
    line,
    { list: (ms) => listTextsIn(account, ms), take: (one) => takeText(line, one) },
    sinceMs,
  );
}

const replies = (line: Line) =>
  line.db
    .selectFrom('outbox')
    .select(['key', 'phone', 'text', 'not_before_ms'])
    .where('key', 'like', 'reply:%')
    .orderBy('id')
    .execute();

test('what no webhook brought is taken once and answered by the outbox; what one brought is left alone', async () => {
  const line = await testLine(onTestFinished);
  const { url } = await startWeb(line, onTestFinished);
  const first = await text(url, 'SM1', ANN, 'ploughed 1');
  const list = [
    listedText('SM3', NOON_MS - 10 * MINUTE_MS, { from: BEN, body: 'ploughed 1', num_segments: '2' }),
    listedText('SM1', NOON_MS - 20 * MINUTE_MS, { body: 'ploughed 1' }),
    listedText('SM2', NOON_MS - 30 * MINUTE_MS, { from: '12345', body: 'advertisement' }),
  ];
  expect(await fetchFrom(line, list)).toEqual({ taken: 1, isWhole: true });
  expect(await fetchFrom(line, list)).toEqual({ taken: 0, isWhole: true });
  const reports = await line.db.selectFrom('reports').select(['phone', 'done_on']).execute();
  expect(reports).toEqual([
    { phone: ANN, done_on: '2027-03-10' },
    { phone: BEN, done_on: '2027-03-10' },
  ]);
  expect(await replies(line)).toMatchObject([
    { phone: BEN, text: 'ploughed 1 (0 before, text 1)', not_before_ms: NOON_MS },
  ]);
  const kept = await line.db.selectFrom('texts_in').selectAll().where('phone', '=', BEN).executeTakeFirst();
  expect(kept).toMatchObject({ received_ms: NOON_MS - 10 * MINUTE_MS, answer_parts: null, carrier_parts: 2 });
  expect(first.text).toBe('ploughed 1 (0 before, text 1)');
  expect(line.log.lines).toEqual([]);
  // The webhook comes after all: the answer is on its way already.
  expect((await text(url, 'SM3', BEN, 'ploughed 1')).text).toBeNull();
  expect(await line.db.selectFrom('reports').select('id').execute()).toHaveLength(2);
});

test('a picture without words is known from the list too; one with words is heard', async () => {
  const agent = await agentLine(onTestFinished);
  const sentMs = agent.line.clock.nowMs() - 10 * MINUTE_MS;
  await fetchFrom(agent.line, [
    listedText('MM1', sentMs, { from: ASHA, body: '', num_media: '1' }),
    listedText('MM2', sentMs + 1, { from: OFFICE, body: '', num_media: '0' }),
    listedText('MM3', sentMs + 2, { from: DEMBE, body: 'ploughed 1 today', num_media: 2 }),
  ]);
  const texts = new Map((await replies(agent.line)).map(({ phone, text: said }) => [phone, said]));
  expect(texts.get(ASHA)).toBe(
    'We cannot read pictures. Please text in words. MENU lists what you can text.',
  );
  expect(texts.get(OFFICE)).toMatch(/^Your text was empty/);
  expect(texts.get(DEMBE)).toMatch(/^Plot 1 ploughed/);
});

test('a text whose webhook may be under way, and one of long ago, are left', async () => {
  const line = await testLine(onTestFinished);
  const list = [
    listedText('SM1', NOON_MS - MINUTE_MS),
    listedText('SM2', NOON_MS - 8 * DAY_MS),
    listedText('SM3', NOON_MS - 3 * DAY_MS),
  ];
  expect(await fetchFrom(line, list)).toEqual({ taken: 0, isWhole: true });
  expect(await fetchFrom(line, list, NOON_MS - 9 * DAY_MS)).toEqual({ taken: 1, isWhole: true });
});

test('a list that cannot be read is logged, without a number, and tried again', async () => {
  const line = await testLine(onTestFinished);
  const fetching = {
    list: async () => ({ kind: 'failed', why: 'HTTP 401' }) as const,
    take: async () => null,
  };
  expect(await fetchMissed(line, fetching)).toEqual({ taken: 0, isWhole: false });
  expect(line.log.lines).toEqual(['the list of texts in cannot be read {"why":"HTTP 401"}']);
});

test('one text’s fault keeps the others not back', async () => {
  const line = await testLine(onTestFinished);
  const list = [listedText('SM1', NOON_MS - HOUR_MS), listedText('SM2', NOON_MS - 2 * HOUR_MS)];
  const { account } = await fakeRestList(onTestFinished, { texts: list });
  const take = async ({ carrierId }: { carrierId: string }) => {
    if (carrierId.startsWith('SM2')) throw new Error('broken');
  };
  expect(await fetchMissed(line, { list: (ms) => listTextsIn(account, ms), take })).toEqual({
    taken: 1,
    isWhole: false,
  });
  expect(line.log.lines.join('\n')).toContain('a missed text was not taken');
  expect(line.log.lines.join('\n')).not.toContain(ANN);
});

test('a late answer waits for the end of the quiet hours, one that is hardly late does not', async () => {
  const line = await testLine(onTestFinished);
  const nightMs = Date.parse('2027-03-10T19:00:00Z');
  line.clock.set(nightMs);
  await fetchFrom(line, [
    listedText('SM1', nightMs - 5 * HOUR_MS),
    listedText('SM2', nightMs - 5 * MINUTE_MS, { from: BEN }),
  ]);
  const times = new Map((await replies(line)).map(({ phone, not_before_ms }) => [phone, not_before_ms]));
  expect(times.get(BEN)).toBe(nightMs);
  expect(times.get(ANN)).toBe(Date.parse('2027-03-11T04:00:00Z'));
});

test('"today" two days ago is that day, for the record and for the answer', async () => {
  const { line, faults } = await agentLine(onTestFinished);
  const nowMs = line.clock.nowMs();
  await fetchFrom(
    line,
    [listedText('SM1', nowMs - 2 * DAY_MS, { from: ASHA, body: 'cleared plot 1 today' })],
    nowMs - 3 * DAY_MS,
  );
  const [report] = await line.db.selectFrom('reports').select(['activity', 'done_on']).execute();
  expect(report).toEqual({ activity: 'clear', done_on: '2027-03-08' });
  const [reply] = await replies(line);
  expect(reply?.text).toMatch(/^Your text of Mon 8 Mar reached us only now\. Plot 1 cleared Mon 8 Mar/);
  expect(faults).toEqual([]);
});

test('a question that a late text raises is open from the answer on', async () => {
  const { line, say } = await agentLine(onTestFinished);
  const nowMs = line.clock.nowMs();
  const list = [listedText('SM1', nowMs - 2 * DAY_MS, { from: ASHA, body: 'cleared' })];
  await fetchFrom(line, list, nowMs - 3 * DAY_MS);
  expect((await replies(line))[0]?.text).toContain('Which plot');
  expect(await line.db.selectFrom('reports').select('id').execute()).toEqual([]);
  expect(await say(ASHA, '1')).toContain('cleared');
});

test('what others have overtaken, and an agent’s old order, are asked for again and change nothing', async () => {
  const { line, say } = await agentLine(onTestFinished);
  const nowMs = line.clock.nowMs();
  await say(ASHA, 'cleared plot 1');
  await say(ASHA, 'soaked');
  const state = () =>
    line.db
      .selectFrom('phones')
      .select(['number', 'talk_state'])
      .where('number', '=', ASHA)
      .executeTakeFirst();
  const standing = await state();
  const list = [
    listedText('SM1', nowMs - DAY_MS, { from: ASHA, body: 'undo' }),
    listedText('SM2', nowMs - 2 * HOUR_MS, { from: OFFICE, body: 'ready' }),
  ];
  await fetchFrom(line, list, nowMs - 3 * DAY_MS);
  const texts = (await replies(line)).map(({ text: words }) => words);
  expect(texts).toEqual([
    'Your text of Tue 9 Mar reached us only now. Nothing is recorded. Please text it again.',
    'Your text of Wed 10 Mar reached us only now. Nothing is recorded. Please text it again.',
  ]);
  expect(await line.db.selectFrom('undos').selectAll().execute()).toEqual([]);
  expect(await state()).toEqual(standing);
  expect(await say(ASHA, '1')).toContain('soaking');
});

test('an opt-out holds however late it comes, and is confirmed once', async () => {
  const { line, say } = await agentLine(onTestFinished);
  const nowMs = line.clock.nowMs();
  await say(ASHA, 'next');
  await fetchFrom(line, [listedText('SM1', nowMs - DAY_MS, { from: ASHA, body: 'STOP' })]);
  const phone = await line.db
    .selectFrom('phones')
    .select('stopped')
    .where('number', '=', ASHA)
    .executeTakeFirst();
  expect(phone).toEqual({ stopped: 1 });
  expect(await replies(line)).toHaveLength(1);
});
