import { expect, onTestFinished, test } from 'vitest';
import type { Day } from '../../src/plan/day.ts';
import { parseDay } from '../../src/plan/day.ts';
import { countedIds } from '../../src/store/ids.ts';
import { replaceReminders } from '../../src/store/reminders.ts';
import type { Line } from '../../src/sweeps/line.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { sweepReminders } from '../../src/sweeps/sweep-reminders.ts';
import { takeText } from '../../src/web/take-text.ts';
import { fakeTalk } from '../support/fake-talk.ts';
import { DAY_MS, HOUR_MS, NOON_MS, testLine } from '../support/test-line.ts';
import { ANN, BEN, BEN_AT_HOME, CYN_AND_DAN, seasonOf } from '../support/valley-scheme.ts';

const TODAY = parseDay('2027-03-10') as Day;
/** 17:00 in Nairobi, when the test valley's reminders go out. */
const REMIND_MS = NOON_MS + 5 * HOUR_MS;

async function plan(line: Line, plotId: string, ...days: readonly Day[]) {
  const reminders = days.map(
    (on) => ({ on, seasonId: seasonOf(plotId), activity: 'flood', why: 'tomorrow' }) as const,
  );
  await replaceReminders(line.db, 'test-valley', seasonOf(plotId), reminders);
}

async function outbox(line: Line) {
  const rows = await line.db
    .selectFrom('outbox')
    .selectAll()
    .orderBy('created_ms')
    .orderBy('phone')
    .execute();
  return rows.map(({ phone, text }) => [phone, text]);
}

async function waiting(line: Line) {
  const rows = await line.db
    .selectFrom('reminders')
    .selectAll()
    .where('sent', '=', 0)
    .orderBy('season_id')
    .orderBy('due_on')
    .execute();
  return rows.map((row) => [row.season_id, row.due_on, row.look_on]);
}

test('nothing before the hour; from the hour on one text for the phone, merged over its plots', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY);
  await plan(line, 'p2', TODAY);
  await plan(line, 'p3', TODAY + 1);
  line.clock.set(REMIND_MS - 60_000);
  expect(await sweepReminders(line)).toBe(0);
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(1);
  expect(await sweepReminders(line)).toBe(0);
  expect(await outbox(line)).toEqual([[ANN, 'remind 1 flood tomorrow, 2 flood tomorrow']]);
  expect(await waiting(line)).toEqual([[seasonOf('p3'), '2027-03-11', '2027-03-11']]);
});

test('people who share a phone get one text on it; a person with two phones gets it on the first', async () => {
  const line = await testLine(onTestFinished);
  for (const plot of ['p3', 'p4', 'p5']) await plan(line, plot, TODAY);
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(2);
  expect(await outbox(line)).toEqual([
    [BEN, 'remind 1 flood tomorrow'],
    [CYN_AND_DAN, 'remind 1 flood tomorrow, 2 flood tomorrow'],
  ]);
});

test('quiet hours hold, over midnight too', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY);
  for (const hour of [20, 23]) {
    line.clock.set(NOON_MS + (hour - 12) * HOUR_MS);
    expect(await sweepReminders(line)).toBe(0);
  }
  line.clock.set(NOON_MS + 18 * HOUR_MS);
  expect(await sweepReminders(line)).toBe(0);
  expect(await waiting(line)).toHaveLength(1);
});

test('after days without a sweep: caught up in one text, and not repeated', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY, TODAY + 1, TODAY + 2);
  await plan(line, 'p2', TODAY + 4);
  line.clock.set(REMIND_MS + 3 * DAY_MS);
  expect(await sweepReminders(line)).toBe(1);
  line.clock.advance(DAY_MS);
  expect(await sweepReminders(line)).toBe(1);
  line.clock.advance(DAY_MS);
  expect(await sweepReminders(line)).toBe(0);
  expect((await outbox(line)).map(([, text]) => text)).toEqual([
    'remind 1 flood tomorrow, 1 flood tomorrow, 1 flood tomorrow',
    'remind 2 flood tomorrow',
  ]);
});

test('what is no longer true vanishes without a text', async () => {
  const line = await testLine(onTestFinished);
  await takeText(line, { carrierId: 'SM1', from: ANN, text: 'ploughed 1' });
  await takeText(line, { carrierId: 'SM2', from: ANN, text: 'ploughed 1' });
  line.clock.set(REMIND_MS + DAY_MS);
  expect(await sweepReminders(line)).toBe(0);
  expect(await outbox(line)).toEqual([]);
  expect(await waiting(line)).toEqual([]);
});

test('a second reminder of the same day waits for the next, whatever planned it', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY);
  line.clock.set(REMIND_MS);
  await sweepReminders(line);
  await plan(line, 'p2', TODAY);
  line.clock.advance(HOUR_MS);
  expect(await sweepReminders(line)).toBe(0);
  expect(await waiting(line)).toEqual([[seasonOf('p2'), '2027-03-10', '2027-03-11']]);
  line.clock.set(REMIND_MS + DAY_MS);
  expect(await sweepReminders(line)).toBe(1);
});

test('a new plan does not repeat what was texted: neither the same day nor after a restart', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY);
  line.clock.set(REMIND_MS);
  await sweepReminders(line);
  await plan(line, 'p1', TODAY, TODAY + 1);
  await line.close();
  const again = await testLine(onTestFinished, {
    path: line.path,
    clock: line.clock,
    makeId: countedIds('again'),
  });
  expect(await sweepReminders(again)).toBe(0);
  expect(await waiting(again)).toEqual([[seasonOf('p1'), '2027-03-11', '2027-03-11']]);
});

test('a clock that goes back sends nothing twice and loses nothing', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY, TODAY + 1);
  await plan(line, 'p3', TODAY + 1);
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(1);
  line.clock.advance(-2 * DAY_MS);
  expect(await sweepReminders(line)).toBe(0);
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(0);
  line.clock.set(REMIND_MS + DAY_MS);
  expect(await sweepReminders(line)).toBe(2);
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(0);
  expect(await outbox(line)).toHaveLength(3);
});

test('an opted-out number gets nothing; the second phone takes over; START brings the rest back', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p3', TODAY);
  await plan(line, 'p1', TODAY);
  await takeText(line, { carrierId: 'SM1', from: BEN, text: 'stop' });
  await takeText(line, { carrierId: 'SM2', from: ANN, text: 'stop' });
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(1);
  expect(await outbox(line)).toEqual([[BEN_AT_HOME, 'remind 1 flood tomorrow']]);
  expect(await waiting(line)).toEqual([[seasonOf('p1'), '2027-03-10', '2027-03-11']]);
  await takeText(line, { carrierId: 'SM3', from: ANN, text: 'start' });
  line.clock.set(REMIND_MS + DAY_MS);
  expect(await sweepReminders(line)).toBe(1);
});

test('what waits to be sent is taken back when the number opts out', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY);
  line.clock.set(REMIND_MS);
  await sweepReminders(line);
  await takeText(line, { carrierId: 'SM1', from: ANN, text: 'stop' });
  expect(await sweepOutbox(line)).toBe(0);
  const [text] = await line.db.selectFrom('outbox').selectAll().execute();
  expect(text).toMatchObject({ state: 'failed', why: 'opted-out' });
});

test('one phone whose reminder fails does not keep the others back, and is tried again', async () => {
  let broken = true;
  const remind: typeof fakeTalk.remind = (world, due) => {
    if (broken && world.people.some((person) => person.name === 'Ann')) throw new Error(`no plan for ${ANN}`);
    return fakeTalk.remind(world, due);
  };
  const line = await testLine(onTestFinished, { talk: { ...fakeTalk, remind } });
  for (const plot of ['p1', 'p3']) await plan(line, plot, TODAY);
  line.clock.set(REMIND_MS);
  expect(await sweepReminders(line)).toBe(1);
  expect(line.log.lines.join()).toContain('a reminder could not be made');
  expect(line.log.lines.join()).not.toContain('7700900');
  broken = false;
  expect(await sweepReminders(line)).toBe(1);
});

test('a reminder that nobody sent in time is dropped when quiet hours begin', async () => {
  const line = await testLine(onTestFinished);
  await plan(line, 'p1', TODAY);
  line.clock.set(REMIND_MS);
  await sweepReminders(line);
  line.clock.set(NOON_MS + 8 * HOUR_MS);
  expect(await sweepOutbox(line)).toBe(0);
  const [text] = await line.db.selectFrom('outbox').selectAll().execute();
  expect(text).toMatchObject({ state: 'failed', why: 'expired' });
});

test('a plan that names again what was just found untrue is not asked again the same day', async () => {
  let asked = 0;
  const remind: typeof fakeTalk.remind = (_world, due) => {
    asked += 1;
    return { effects: [{ do: 'remind', seasonId: seasonOf('p1'), reminders: due }] };
  };
  const line = await testLine(onTestFinished, { talk: { ...fakeTalk, remind } });
  await plan(line, 'p1', TODAY);
  line.clock.set(REMIND_MS);
  for (let minute = 0; minute < 3; minute += 1) {
    expect(await sweepReminders(line)).toBe(0);
    line.clock.advance(60_000);
  }
  expect(asked).toBe(1);
});
