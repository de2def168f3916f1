import { expect, onTestFinished, test } from 'vitest';
import type { Day } from '../../src/plan/day.ts';
import { parseDay } from '../../src/plan/day.ts';
import { forgetPerson } from '../../src/store/forget.ts';
import { markStopped } from '../../src/store/talks.ts';
import type { Line, Talk } from '../../src/sweeps/line.ts';
import { sweepBroadcasts } from '../../src/sweeps/sweep-broadcasts.ts';
import { queuedTexts, sendBroadcast, stateOf, waterOf } from '../support/broadcasts.ts';
import { fakeTalk } from '../support/fake-talk.ts';
import { plantMany } from '../support/many-growers.ts';
import { DAY_MS, HOUR_MS, NOON_MS, testLine } from '../support/test-line.ts';
import { ANN, BEN, CYN_AND_DAN, seasonOf } from '../support/valley-scheme.ts';

const TODAY = parseDay('2027-03-10') as Day;

/** Says each plot with its hour and the one before; plans a reminder for tomorrow, and counts the phones planned. */
function watchedTalk() {
  const planned: string[] = [];
  const talk: Talk = {
    ...fakeTalk,
    broadcast: (_head, { name, plots }) => ({
      sentences: [
        {
          key: `${name}: ${plots.map(({ number, visit, before }) => `${number} at ${visit?.start.hour ?? 'no'} was ${before?.start.hour ?? 'no'}`).join(', ')}`,
        },
      ],
    }),
    plan: (world) => {
      planned.push(world.people.map(({ name }) => name).join('+'));
      return {
        effects: world.plots.map(({ seasonId }) => ({
          do: 'remind',
          seasonId,
          reminders: [{ on: TODAY + 1, seasonId, activity: 'flood', why: 'tomorrow' }],
        })),
      };
    },
  };
  return { talk, planned };
}

const texts = async (line: Line) => (await queuedTexts(line.db)).map(({ key, text }) => [key, text]);
const reminded = async (line: Line) =>
  (await line.db.selectFrom('reminders').select('season_id').orderBy('season_id').execute()).map(
    (row) => row.season_id,
  );

test('each owner is told of his or her own plots that changed, by number, with what stood before', async () => {
  const { talk } = watchedTalk();
  const line = await testLine(onTestFinished, { talk });
  await sendBroadcast(
    line.db,
    'b1',
    waterOf({ p2: [TODAY, 8], p1: [TODAY, 6], p3: [TODAY, 10], p5: [TODAY, 12] }),
  );
  expect(await sweepBroadcasts(line)).toBe(3);
  expect(await texts(line)).toEqual([
    [`broadcast:b1:${ANN}:test-valley/ann`, 'Ann: 1 at 6 was no, 2 at 8 was no'],
    [`broadcast:b1:${BEN}:test-valley/ben`, 'Ben: 1 at 10 was no'],
    [`broadcast:b1:${CYN_AND_DAN}:test-valley/dan`, 'Dan: 2 at 12 was no'],
  ]);
  expect((await stateOf(line.db, 'b1')).state).toBe('sending');
  await sendBroadcast(line.db, 'b2', waterOf({ p1: [TODAY, 6], p2: [TODAY, 9], p3: null }));
  expect(await sweepBroadcasts(line)).toBe(2);
  expect((await texts(line)).slice(3)).toEqual([
    [`broadcast:b2:${ANN}:test-valley/ann`, 'Ann: 2 at 9 was 8'],
    [`broadcast:b2:${BEN}:test-valley/ben`, 'Ben: 1 at no was 10'],
  ]);
});

test('two people on one phone get a text each; the phone is planned once, and those of others not at all', async () => {
  const { talk, planned } = watchedTalk();
  const line = await testLine(onTestFinished, { talk });
  planned.length = 0;
  await line.db.deleteFrom('reminders').execute();
  await sendBroadcast(line.db, 'b', waterOf({ p4: [TODAY, 6], p5: [TODAY, 8] }));
  expect(await sweepBroadcasts(line)).toBe(2);
  expect(planned).toEqual(['Cyn+Dan']);
  expect(await reminded(line)).toEqual([seasonOf('p4'), seasonOf('p5')]);
});

test('without a phone that takes texts: no text, but a new plan; forgotten: neither', async () => {
  const { talk, planned } = watchedTalk();
  const line = await testLine(onTestFinished, { talk });
  await line.db.deleteFrom('reminders').execute();
  planned.length = 0;
  await sendBroadcast(line.db, 'b', waterOf({ p1: [TODAY, 6], p3: [TODAY, 8], p4: [TODAY, 9] }));
  await markStopped(line.db, ANN, 1);
  await forgetPerson(line.db, 'test-valley/ben', 'none');
  expect(await sweepBroadcasts(line)).toBe(1);
  expect(planned).toEqual(['Ann', 'Cyn+Dan']);
  expect(await reminded(line)).toEqual(['p1', 'p2', 'p4', 'p5'].map(seasonOf));
});

test('a text lives to the end of the day on which its latest visit starts, and a day at least', async () => {
  const line = await testLine(onTestFinished);
  await sendBroadcast(
    line.db,
    'b',
    waterOf({ p1: [TODAY + 3, 6], p2: [TODAY + 1, 6], p3: [TODAY, 14], p4: null }),
  );
  await sweepBroadcasts(line);
  const rows = await line.db.selectFrom('outbox').selectAll().orderBy('phone').execute();
  // Noon to the midnight after the fourth day.
  expect(rows.map((row) => row.expires_ms - NOON_MS)).toEqual([3 * DAY_MS + 12 * HOUR_MS, DAY_MS]);
});

test('one person whose text or plan cannot be made does not keep the others back', async () => {
  const { talk } = watchedTalk();
  const failing: Talk = {
    ...talk,
    broadcast: (head, recipient) => {
      if (recipient.name === 'Ann') throw new Error(`no words for ${ANN}`);
      return talk.broadcast(head, recipient);
    },
    plan: (world) => {
      if (world.people.some(({ name }) => name === 'Ben')) throw new Error('no plan');
      return talk.plan(world);
    },
  };
  const opened = await testLine(onTestFinished);
  await sendBroadcast(opened.db, 'b', waterOf({ p1: [TODAY, 6], p3: [TODAY, 8], p4: [TODAY, 9] }));
  expect(await sweepBroadcasts({ ...opened, talk: failing })).toBe(2);
  expect((await texts(opened)).map(([, text]) => text)).toEqual(['Ben: 1 at 8 was no', 'Cyn: 1 at 9 was no']);
  expect(await reminded(opened)).toEqual(['p1', 'p2', 'p4', 'p5'].map(seasonOf));
  expect(opened.log.lines).toHaveLength(2);
  expect(opened.log.lines.join()).not.toContain('+44');
});

test('many owners over many pieces, swept twice at once: one text for each', async () => {
  const line = await testLine(onTestFinished);
  await plantMany(line.db, 2500);
  const visit = { start: { day: TODAY, hour: 6 }, end: { day: TODAY, hour: 8 } };
  const broadcast = waterOf({});
  if (broadcast.kind !== 'water') throw new Error('water');
  const appointments = Array.from({ length: 2500 }, (_, i) => ({
    plotId: `m${String(i).padStart(7, '0')}`,
    visit,
  }));
  await sendBroadcast(line.db, 'b', { ...broadcast, appointments });
  const queued = await Promise.all([sweepBroadcasts(line), sweepBroadcasts(line)]);
  expect(queued.reduce((sum, one) => sum + one, 0)).toBe(2500);
  expect(new Set((await queuedTexts(line.db)).map(({ phone }) => phone)).size).toBe(2500);
  expect(line.log.lines).toEqual([]);
});
