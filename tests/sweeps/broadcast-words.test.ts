import { expect, onTestFinished, test, vi } from 'vitest';
import { forgetPerson } from '../../src/store/forget.ts';
import { purgePhone } from '../../src/store/outbox.ts';
import { markStopped } from '../../src/store/talks.ts';
import type { Line } from '../../src/sweeps/line.ts';
import { sweepBroadcasts } from '../../src/sweeps/sweep-broadcasts.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { queuedTexts, sendBroadcast, stateOf, wordsOf } from '../support/broadcasts.ts';
import { fakeVoice } from '../support/fake-talk.ts';
import { MANY_BLOCK, manyPhone, plantMany } from '../support/many-growers.ts';
import { DAY_MS, HOUR_MS, NOON_MS, testLine } from '../support/test-line.ts';
import { ANN, BEN, BEN_AT_HOME, CYN_AND_DAN, VALLEY } from '../support/valley-scheme.ts';

const phones = async (line: Line) => (await queuedTexts(line.db)).map(({ phone }) => phone);
const TEXT = 'words for : canal closed';

/** The line, on which something happens as soon as so many pieces are committed. */
function happensAfter(line: Line, pieces: number, happen: () => Promise<unknown>): Line {
  let committed = 0;
  const together: Line['together'] = async (work) => {
    const done = await line.together(work);
    committed += 1;
    if (committed === pieces) await happen();
    return done;
  };
  return { ...line, together };
}

test('one text for each phone of the blocks, in the outbox under its key; then the broadcast is being sent', async () => {
  const line = await testLine(onTestFinished);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  line.clock.advance(HOUR_MS);
  expect(await sweepBroadcasts(line)).toBe(3);
  expect(await queuedTexts(line.db)).toEqual(
    [ANN, BEN, CYN_AND_DAN].map((phone) => ({ key: `broadcast:b:${phone}`, phone, text: TEXT })),
  );
  expect(await stateOf(line.db, 'b')).toEqual({ state: 'sending', queued_ms: NOON_MS + HOUR_MS });
  expect(await sweepBroadcasts(line)).toBe(0);
});

test('not to agents, to those who were forgotten, without an open season, stopped, or of other blocks', async () => {
  const line = await testLine(onTestFinished);
  await plantMany(line.db, 2);
  await forgetPerson(line.db, 'test-valley/ann', 'none');
  await markStopped(line.db, CYN_AND_DAN, 1);
  await line.db
    .updateTable('plots')
    .set({ owner_id: 'test-valley/eve' })
    .where('id', '=', 'test-valley/p1')
    .execute();
  await line.db.updateTable('seasons').set({ open: 1 }).where('plot_id', '=', 'test-valley/p1').execute();
  await sendBroadcast(line.db, 'upper', wordsOf('canal closed'));
  await sendBroadcast(line.db, 'many', wordsOf('canal closed', MANY_BLOCK));
  await line.db.updateTable('seasons').set({ open: 0 }).where('plot_id', '=', 'm0000001').execute();
  expect(await sweepBroadcasts(line)).toBe(2);
  expect(await phones(line)).toEqual([manyPhone(0), BEN]);
});

test('the first phone that takes texts, by its place', async () => {
  const line = await testLine(onTestFinished);
  await markStopped(line.db, BEN, 1);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  await sweepBroadcasts(line);
  expect(await phones(line)).toEqual([ANN, CYN_AND_DAN, BEN_AT_HOME]);
});

test('people on one phone who speak two languages: one text, in that of the first', async () => {
  const swahili = { ...fakeVoice('sw'), say: () => 'maneno' };
  const line = await testLine(onTestFinished, { voices: [fakeVoice(), swahili] });
  await line.db.updateTable('people').set({ lang: 'sw' }).where('id', '=', 'test-valley/dan').execute();
  await line.db.updateTable('people').set({ lang: 'sw' }).where('id', '=', 'test-valley/ann').execute();
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  await sweepBroadcasts(line);
  expect((await queuedTexts(line.db)).map(({ text }) => text)).toEqual(['maneno', TEXT, TEXT]);
});

test('a text is made once for a language, however many pieces there are', async () => {
  const voice = fakeVoice();
  const say = vi.fn(voice.say);
  const line = await testLine(onTestFinished, { voices: [{ ...voice, say }] });
  await plantMany(line.db, 1200);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  expect(await sweepBroadcasts(line)).toBe(1200);
  expect(say).toHaveBeenCalledTimes(1);
});

test('a broadcast to nobody is being sent at once', async () => {
  const line = await testLine(onTestFinished);
  await plantMany(line.db, 1);
  await line.db.updateTable('seasons').set({ open: 0 }).where('plot_id', '=', 'm0000000').execute();
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  await sendBroadcast(line.db, 'c', { ...wordsOf('canal closed'), blockIds: [] });
  expect(await sweepBroadcasts(line)).toBe(0);
  expect((await stateOf(line.db, 'b')).state).toBe('sending');
  expect((await stateOf(line.db, 'c')).state).toBe('sending');
});

/** A broadcast to 1,200 growers, of whom the fourth has a second phone. */
async function manyWithSecondPhone() {
  const line = await testLine(onTestFinished);
  await plantMany(line.db, 1200);
  const second = '+447700900999';
  await line.db.insertInto('phones').values({ number: second, turns: 0, stopped: 0 }).execute();
  const link = { phone: second, person_id: 'm0000003', place: 1 };
  await line.db.insertInto('phone_people').values(link).execute();
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  return { line, second };
}

test('who stops between two pieces gets nothing any more, neither there nor on another phone', async () => {
  const { line, second } = await manyWithSecondPhone();
  const stop = async () => {
    await sweepOutbox(line);
    for (const phone of [manyPhone(3), manyPhone(1100)]) await markStopped(line.db, phone, 1);
    for (const phone of [manyPhone(3), manyPhone(1100)]) await purgePhone(line.db, phone, NOON_MS);
  };
  expect(await sweepBroadcasts(happensAfter(line, 2, stop))).toBe(1199);
  const got = await phones(line);
  expect(got).toContain(manyPhone(3));
  expect(got).not.toContain(manyPhone(1100));
  expect(got).not.toContain(second);
});

test('who stops before the text was handed over gets it on the next phone', async () => {
  const { line, second } = await manyWithSecondPhone();
  const stop = async () => {
    await markStopped(line.db, manyPhone(3), 1);
    await purgePhone(line.db, manyPhone(3), NOON_MS);
  };
  expect(await sweepBroadcasts(happensAfter(line, 2, stop))).toBe(1201);
  expect(await phones(line)).toContain(second);
});

test('who is forgotten in the middle leaves no text behind, and the rest get theirs', async () => {
  const line = await testLine(onTestFinished);
  await plantMany(line.db, 1200);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  const forget = async () => {
    for (const who of ['m0000000', 'm0001199']) await line.together((trx) => forgetPerson(trx, who, 'none'));
  };
  expect(await sweepBroadcasts(happensAfter(line, 2, forget))).toBe(1199);
  const got = await phones(line);
  expect(got).toHaveLength(1198);
  expect(got).not.toContain(manyPhone(0));
});

test('two sweeps at the same time queue every text once', async () => {
  const line = await testLine(onTestFinished);
  const other = await testLine(onTestFinished, { path: line.path, schemeText: null, makeId: line.makeId });
  await plantMany(line.db, 1700);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  const queued = await Promise.all([line, other, line].map((each) => sweepBroadcasts(each)));
  expect(queued.reduce((sum, texts) => sum + texts, 0)).toBe(1700);
  expect(new Set(await phones(line)).size).toBe(1700);
  expect(await queuedTexts(line.db)).toHaveLength(1700);
  expect([...line.log.lines, ...other.log.lines]).toEqual([]);
});

test('one broadcast that fails does not keep the others back, and goes on when it can', async () => {
  const voice = fakeVoice();
  let isBroken = true;
  const say: typeof voice.say = (saying) => {
    if (isBroken && saying.sentences[0]?.key.includes('one')) throw new Error('no words');
    return voice.say(saying);
  };
  const line = await testLine(onTestFinished, { voices: [{ ...voice, say }] });
  await sendBroadcast(line.db, 'b1', wordsOf('one'));
  await sendBroadcast(line.db, 'b2', wordsOf('two'));
  expect(await sweepBroadcasts(line)).toBe(3);
  expect(line.log.lines).toHaveLength(1);
  expect(line.log.lines.join()).not.toContain('+44');
  isBroken = false;
  expect(await sweepBroadcasts(line)).toBe(3);
});

test('in quiet hours texts wait for their end, and live for a day from there', async () => {
  const line = await testLine(onTestFinished);
  line.clock.set(NOON_MS + 11 * HOUR_MS);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  await sweepBroadcasts(line);
  expect(await sweepOutbox(line)).toBe(0);
  const sevenMs = NOON_MS + 19 * HOUR_MS;
  const times = { not_before_ms: sevenMs, expires_ms: sevenMs + DAY_MS };
  expect(await line.db.selectFrom('outbox').selectAll().executeTakeFirst()).toMatchObject(times);
  line.clock.set(sevenMs - 1);
  expect(await sweepOutbox(line)).toBe(0);
  line.clock.set(sevenMs);
  expect(await sweepOutbox(line)).toBe(3);
});

test('what was not handed over before the quiet hours waits for their end', async () => {
  const send = async () => ({ kind: 'retry', why: 'busy' }) as const;
  const line = await testLine(onTestFinished, {
    carrier: { name: 'busy', simulated: true, partsPerSecond: null, send },
  });
  line.clock.set(NOON_MS + 8 * HOUR_MS - 1000);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  await sweepBroadcasts(line);
  await sweepOutbox(line);
  line.clock.advance(2 * 60_000);
  await sweepBroadcasts(line);
  const rows = await line.db.selectFrom('outbox').select(['not_before_ms', 'state']).distinct().execute();
  expect(rows).toEqual([{ not_before_ms: NOON_MS + 19 * HOUR_MS, state: 'queued' }]);
});

test('a clock put back between two pieces loses and repeats nothing', async () => {
  const line = await testLine(onTestFinished);
  await plantMany(line.db, 1200);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  const back = async () => line.clock.set(NOON_MS - 3 * HOUR_MS);
  expect(await sweepBroadcasts(happensAfter(line, 2, back))).toBe(1200);
  expect(new Set(await phones(line)).size).toBe(1200);
  await sweepOutbox(line);
  line.clock.set(NOON_MS);
  await sweepOutbox(line);
  const states = await line.db.selectFrom('outbox').select('state').distinct().execute();
  expect(states).toEqual([{ state: 'handed' }]);
});

test('a hundred thousand growers: as many texts, none twice', async () => {
  const line = await testLine(onTestFinished, { schemeText: VALLEY });
  await plantMany(line.db, 100_000);
  await sendBroadcast(line.db, 'b', wordsOf('canal closed', MANY_BLOCK));
  expect(await sweepBroadcasts(line)).toBe(100_000);
  const { texts, phones: all } = await line.db
    .selectFrom('outbox')
    .select((eb) => [eb.fn.countAll().as('texts'), eb.fn.count('phone').distinct().as('phones')])
    .executeTakeFirstOrThrow();
  expect([Number(texts), Number(all)]).toEqual([100_000, 100_000]);
  expect((await stateOf(line.db, 'b')).state).toBe('sending');
});
