import { expect, onTestFinished, test } from 'vitest';
import { takeText } from '../../../src/web/take-text.ts';
import { dial, hit, reportsOn, screensOn } from '../../support/ussd.ts';
import { ANN, BEN, STRANGER, VALLEY } from '../../support/valley-scheme.ts';

const MAIN = /^CON 1 Report work\n2 Next step\n/;
const MINUTE_MS = 60_000;
const started = () => screensOn(onTestFinished);

test('a whole report, in the common form, is the same records as a text', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  expect(await ben.open()).toMatch(MAIN);
  expect(await ben.key('1')).toMatch(/^CON Plot 1: what is done\?\n1 clearing\n/);
  expect(await ben.key('1')).toBe('CON Plot 1: clearing.\n1 Today\n2 Yesterday\n3 Another day\n0 Back');
  expect(await ben.key('2')).toBe('CON Plot 1 cleared Tue 9 Mar.\n1 Record it\n0 Back');
  expect(await reportsOn(line)).toEqual([]);
  expect(await ben.key('1')).toMatch(/^CON Plot 1 cleared Tue 9 Mar\./);
  expect(await line.db.selectFrom('reports').selectAll().execute()).toMatchObject([
    {
      season_id: 'test-valley/p3/1',
      activity: 'clear',
      stage: 'finished',
      done_on: '2027-03-09',
      phone: BEN,
      turn: 1,
    },
  ]);
  const texts = await line.db.selectFrom('texts_in').selectAll().execute();
  expect(texts).toMatchObject([{ body: 'clear 1 2027-03-09', phone: BEN, faulty: 0 }]);
  expect(await line.db.selectFrom('reminders').selectAll().execute()).not.toEqual([]);
  const undo = await takeText(line, { carrierId: 'SM1', from: BEN, text: 'undo' });
  expect(undo).toMatch(/clear/);
  expect(await line.db.selectFrom('undos').selectAll().execute()).toHaveLength(1);
});

test('the same hit twice gets the same answer and no second record', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  for (const key of ['1', '1', '1']) await ben.key(key);
  const first = await ben.key('1');
  expect(await ben.again()).toBe(first);
  expect(await Promise.all([ben.again(), ben.again()])).toEqual([first, first]);
  expect(await reportsOn(line)).toEqual(['clear 2027-03-10']);
});

test('a hit that comes late, after a newer one, changes nothing', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  for (const key of ['1', '1', '1']) await ben.key(key);
  const newest = await ben.key('1');
  expect(await ben.raw('1*1')).toBe(newest);
  expect(await reportsOn(line)).toEqual(['clear 2027-03-10']);
});

test('a direct dial brings keys at the first hit, but nothing is recorded before it was shown', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  expect(await ben.open('1*1*2*1')).toBe('CON Plot 1 cleared Tue 9 Mar.\n1 Record it\n0 Back');
  expect(await reportsOn(line)).toEqual([]);
  await ben.key('1');
  expect(await reportsOn(line)).toEqual(['clear 2027-03-09']);
});

test('what was keyed before going back is not keyed again', async () => {
  const { url } = await started();
  const ann = dial(url, ANN);
  await ann.key('1');
  await ann.key('1');
  expect(await ann.key('0')).toMatch(MAIN);
  expect(await ann.key('4')).toMatch(/^CON Which plot\?/);
});

test('people key in the star themselves', async () => {
  const { url } = await started();
  const ben = dial(url, BEN);
  await ben.open();
  await ben.key('4');
  expect(await ben.key('3*0*')).toMatch(/^CON Spot 3/);
  expect(await ben.key('7')).toMatch(/^CON Spot 4/);
});

test('an empty input on a later hop shows the screen again, whether the way is then counted on or anew', async () => {
  const { url } = await started();
  const [ben, ann] = [dial(url, BEN), dial(url, ANN, 'S2')];
  const day = await ben.open('1*1');
  expect(await ben.raw('')).toBe(day);
  expect(await ben.raw('1*1*2')).toMatch(/^CON Plot 1 cleared Tue 9 Mar/);
  await ann.open('1*2');
  await ann.raw('');
  expect(await ann.raw('1')).toMatch(/^CON Plot 2: clearing/);
  expect(await ann.raw('1*2')).toMatch(/^CON Plot 2 cleared Tue 9 Mar/);
});

test('a session that was lost is gone on with, or not, as the person likes', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  for (const key of ['1', '1', '2']) await ben.key(key);
  line.clock.set(line.clock.nowMs() + MINUTE_MS);
  const again = dial(url, BEN, 'S2');
  expect(await again.open()).toBe('CON You had not finished.\n1 Go on\n2 Start anew\n0 Close');
  expect(await again.key('1')).toBe('CON Plot 1 cleared Tue 9 Mar.\n1 Record it\n0 Back');
  const third = dial(url, BEN, 'S3');
  await third.open();
  expect(await third.key('2')).toMatch(MAIN);
  expect(await reportsOn(line)).toEqual([]);
});

test('a finished session, and one of an hour ago, is not asked about', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  for (const key of ['1', '1', '2', '1']) await ben.key(key);
  expect(await dial(url, BEN, 'S2').open()).toMatch(MAIN);
  await dial(url, BEN, 'S3').open('1*1');
  line.clock.set(line.clock.nowMs() + 60 * MINUTE_MS);
  expect(await dial(url, BEN, 'S4').open()).toMatch(MAIN);
});

test('a session id that comes again later, or on another phone, is another session', async () => {
  const { line, url } = await started();
  await dial(url, BEN).open('1*1');
  expect(await dial(url, ANN).open()).toMatch(MAIN);
  line.clock.set(line.clock.nowMs() + 4 * MINUTE_MS);
  expect(await dial(url, BEN).open()).toMatch(/^CON You had not finished/);
  expect(await dial(url, BEN).raw('2')).toMatch(MAIN);
  expect(await dial(url, BEN).raw('6')).toMatch(/^CON Which language/);
});

test('without any session id a dial is told by its inputs', async () => {
  const { url } = await screensOn(onTestFinished, {
    fields: { phone: 'phoneNumber', session: null, input: 'text', hit: null },
  });
  const send = (text: string) => hit(url, { phoneNumber: BEN, text });
  expect(await send('')).toMatch(MAIN);
  await send('1');
  expect(await send('1*1')).toMatch(/^CON Plot 1: clearing/);
  expect(await send('')).toMatch(/^CON You had not finished/);
  expect(await send('1')).toMatch(/^CON Plot 1: clearing/);
});

test('a phone number without its plus, or with its own zero, is the same phone', async () => {
  const { url } = await started();
  for (const [index, number] of [BEN.slice(1), `0${BEN.slice(3)}`, ` ${BEN.slice(1)}`].entries())
    expect(await dial(url, number, `S${index}`).open('1')).toMatch(/^CON Plot 1: what is done/);
});

test('a number of another country than the scheme’s is known without its plus', async () => {
  const abroad = { schemeText: VALLEY.replace('country: GB', 'country: KE') };
  const { url } = await screensOn(onTestFinished, {}, abroad);
  expect(await dial(url, BEN.slice(1)).open('1')).toMatch(/^CON Plot 1: what is done/);
});

test('an unknown number is told how to join, and nothing is kept of it', async () => {
  const { line, url } = await started();
  expect(await dial(url, STRANGER).open('1*1')).toBe(
    'END A line for rice growers. To join, text JOIN VALLEY to it.',
  );
  expect(await line.db.selectFrom('ussd_sessions').selectAll().execute()).toEqual([]);
});

test('0 on the main screen ends the session', async () => {
  const { url } = await started();
  const ben = dial(url, BEN);
  await ben.open();
  expect(await ben.key('0')).toBe('END Goodbye.');
  expect(await ben.again()).toBe('END Goodbye.');
});

const TEXTING = VALLEY.replace('remindAt:', 'textAfterScreens: true\nremindAt:');
const queued = async ({ db }: Awaited<ReturnType<typeof started>>['line']) =>
  (await db.selectFrom('outbox').select(['phone', 'text']).execute()).map(
    ({ phone, text }) => `${phone} ${text}`,
  );

test('a report is confirmed by a text only where the scheme wants it, once, and never to a stopped number', async () => {
  const silent = await started();
  await dial(silent.url, BEN).open('1*1*2');
  await dial(silent.url, BEN).raw('1*1*2*1');
  expect(await reportsOn(silent.line)).toHaveLength(1);
  expect(await queued(silent.line)).toEqual([]);

  const { line, url } = await screensOn(onTestFinished, {}, { schemeText: TEXTING });
  await takeText(line, { carrierId: 'SM1', from: ANN, text: 'stop' });
  for (const [phone, way] of [
    [BEN, '1*1*2'],
    [ANN, '1*1*1*2'],
  ] as const) {
    const one = dial(url, phone);
    await one.open(way);
    await one.key('1');
    await one.again();
  }
  expect(await reportsOn(line)).toHaveLength(2);
  const texts = await queued(line);
  expect(texts).toHaveLength(1);
  expect(texts[0]).toMatch(new RegExp(`^\\${BEN} Plot 1 cleared Tue 9 Mar\\.`));
});

test('a fault is answered, logged without the number, and leaves nothing behind', async () => {
  const { line, url } = await started();
  const ben = dial(url, BEN);
  await ben.open('1*1*2');
  await line.db.schema.alterTable('reports').renameTo('reports_gone').execute();
  const answer = await ben.key('1');
  expect(answer).toBe('END Sorry, our mistake. Nothing is recorded. Please dial again.');
  expect(line.log.lines.join()).not.toContain(BEN);
  expect(line.log.lines.join()).toContain('a screen could not be shown');
  await line.db.schema.alterTable('reports_gone').renameTo('reports').execute();
  expect(await line.db.selectFrom('texts_in').selectAll().execute()).toEqual([]);
  expect(await ben.again()).toMatch(/^CON Plot 1 cleared Tue 9 Mar\./);
  expect(await reportsOn(line)).toEqual(['clear 2027-03-09']);
});

test('forgetting a person takes the session with it', async () => {
  const { line, url } = await started();
  await dial(url, BEN).open('1*1');
  for (const [id, text] of [
    ['SM1', 'forget me'],
    ['SM2', '1'],
  ] as const)
    await takeText(line, { carrierId: id, from: BEN, text });
  expect(await line.db.selectFrom('ussd_sessions').selectAll().execute()).toEqual([]);
});
