import { expect, onTestFinished, test } from 'vitest';
import { MOST_TOGETHER } from '../../src/store/commit-together.ts';
import { loadPhone } from '../../src/store/load-phone.ts';
import { replaceReminders } from '../../src/store/reminders.ts';
import { performEffects } from '../../src/sweeps/perform.ts';
import type { Effect } from '../../src/talk/effect.ts';
import { takeText } from '../../src/web/take-text.ts';
import { fakeTalk } from '../support/fake-talk.ts';
import { type TestLine, testLine } from '../support/test-line.ts';
import { ANN, CYN_AND_DAN, STRANGER, seasonOf } from '../support/valley-scheme.ts';

let deliveries = 0;
function send(line: TestLine, from: string, text: string) {
  deliveries += 1;
  return takeText(line, { carrierId: `SM${deliveries}`, from, text });
}

/** A line whose conversation answers every text with these effects. */
async function lineDoing(...effects: readonly Effect[]) {
  const line = await testLine(onTestFinished, {
    talk: { ...fakeTalk, step: () => ({ state: null, effects }) },
  });
  await send(line, ANN, 'the words');
  return line;
}

test('a stranger joins: person, consent, plots and seasons, and is known by the next text', async () => {
  const line = await testLine(onTestFinished);
  expect(await send(line, STRANGER, 'join Zola')).toBe('joined');
  expect(await send(line, STRANGER, 'hello')).toBe('heard 2 plots 1 hello');
  const facts = await loadPhone(line.db, STRANGER);
  expect(facts.people).toMatchObject([{ name: 'Zola', lang: 'en', role: 'grower', schemeId: 'test-valley' }]);
  expect(facts.plots).toMatchObject([{ number: '1', blockId: 'test-valley/upper', season: { areaHa: 0.2 } }]);
  const consents = await line.db.selectFrom('consents').selectAll().execute();
  expect(consents).toMatchObject([{ kind: 'joined', phone: STRANGER, words: 'join Zola', lang: 'en' }]);
});

test('who joins on a phone that others use gets plot numbers that are free there', async () => {
  const line = await testLine(onTestFinished);
  await send(line, ANN, 'join Zola');
  expect((await loadPhone(line.db, ANN)).plots.map((plot) => plot.number)).toEqual(['1', '2', '3']);
});

test('a report is undone by the next text and the world says so', async () => {
  const line = await testLine(onTestFinished);
  await send(line, ANN, 'ploughed 1');
  expect(await send(line, ANN, 'undo')).toBe('undone');
  expect(await send(line, ANN, 'ploughed 1')).toContain('(0 before');
  expect(await line.db.selectFrom('reports').select('id').execute()).toHaveLength(2);
});

test('every season change is kept beside the others', async () => {
  const way = {
    water: 'rain-fed',
    tillage: 'animals',
    establishment: 'wet-seed',
    nursery: 'mat',
    ripens: 'by-days',
  } as const;
  const line = await lineDoing(
    {
      do: 'change-season',
      seasonId: seasonOf('p1'),
      change: { target: { from: 1, to: 2 }, nurseryGivenUpOn: 5 },
    },
    {
      do: 'change-season',
      seasonId: seasonOf('p1'),
      change: { oldSeedlingsAccepted: true, way, varietyDays: 99 },
    },
  );
  const [plot, other] = (await loadPhone(line.db, ANN)).plots;
  expect(plot?.season).toMatchObject({
    target: { from: 1, to: 2 },
    nurseryGivenUpOn: 5,
    oldSeedlingsAccepted: true,
    way,
    varietyDays: 99,
  });
  expect(other?.season.nurseryGivenUpOn).toBeUndefined();
});

test('name, language, trouble and caution are kept', async () => {
  const line = await lineDoing(
    { do: 'rename', personId: 'test-valley/ann', name: 'Anna' },
    { do: 'set-language', personId: 'test-valley/ann', lang: 'fr' },
    { do: 'note-trouble', seasonId: seasonOf('p1'), what: 'no-water', until: 20_900, words: 'no water' },
    { do: 'cautioned', activity: 'plough' },
    { do: 'cautioned', activity: 'plough' },
  );
  const facts = await loadPhone(line.db, ANN);
  expect(facts).toMatchObject({ people: [{ name: 'Anna', lang: 'fr' }], cautioned: ['plough'] });
  const troubles = await line.db.selectFrom('troubles').selectAll().execute();
  expect(troubles).toMatchObject([{ what: 'no-water', until_on: '2027-03-23', words: 'no water' }]);
});

test('forgetting takes name, number and words out, keeps the nameless report and its own answer', async () => {
  const line = await testLine(onTestFinished);
  await send(line, ANN, 'ploughed 1 secretly');
  const forget = { carrierId: 'SM-forget', from: ANN, text: 'forget' };
  expect(await takeText(line, forget)).toBe('forgotten');
  expect(await takeText(line, forget)).toBe('forgotten');
  expect(await line.db.selectFrom('reports').select(['activity', 'phone']).execute()).toEqual([
    { activity: 'plough', phone: null },
  ]);
  const tables = ['people', 'phones', 'phone_people', 'texts_in', 'consents', 'reminders', 'outbox'] as const;
  const rows = await Promise.all(tables.map((table) => line.db.selectFrom(table).selectAll().execute()));
  expect(JSON.stringify(rows)).not.toMatch(/Ann|7700900001|secretly/);
  expect(await send(line, ANN, 'hello')).toBe('heard 1 plots 0 hello');
});

test('forgetting one of two who share a phone leaves the other whole', async () => {
  const line = await testLine(onTestFinished);
  await send(line, CYN_AND_DAN, 'ploughed 2');
  await send(line, CYN_AND_DAN, 'forget');
  const facts = await loadPhone(line.db, CYN_AND_DAN);
  expect(facts.people).toMatchObject([{ name: 'Dan' }]);
  expect(facts.held.reports).toHaveLength(1);
});

test('a number that opted out stays out when its person is forgotten', async () => {
  const line = await testLine(onTestFinished);
  await send(line, ANN, 'stop');
  await send(line, ANN, 'forget');
  expect(await loadPhone(line.db, ANN)).toMatchObject({ row: { stopped: 1 }, people: [] });
});

test('a state of another version or past its expiry is not shown to the conversation', async () => {
  const line = await testLine(onTestFinished);
  await send(line, ANN, 'a');
  expect(await send(line, ANN, 'b')).toBe('heard 2 plots 2 b');
  line.clock.advance(3_600_000);
  expect(await send(line, ANN, 'c')).toBe('heard 1 plots 2 c');
  await line.db.updateTable('phones').set({ talk_version: 7 }).execute();
  expect(await send(line, ANN, 'd')).toBe('heard 1 plots 2 d');
});

test('a new plan replaces the unsent reminders of its season only', async () => {
  const line = await testLine(onTestFinished);
  const reminder = { activity: 'flood', why: 'tomorrow' } as const;
  for (const plot of ['p1', 'p2']) {
    const seasonId = seasonOf(plot);
    await replaceReminders(line.db, 'test-valley', seasonId, [{ ...reminder, seasonId, on: 1 }]);
  }
  const seasonId = seasonOf('p1');
  const remind = {
    do: 'remind',
    seasonId,
    reminders: [
      { ...reminder, seasonId, on: 2 },
      { ...reminder, seasonId, on: 2 },
    ],
  } as const;
  const cause = { batch: 'b', phone: ANN, turn: 1, nowMs: 0, schemeId: 'test-valley', words: '', lang: null };
  await line.together((trx) => performEffects(trx, line, [remind], cause));
  const rows = await line.db
    .selectFrom('reminders')
    .select(['season_id', 'due_on'])
    .orderBy('season_id')
    .execute();
  expect(rows).toEqual([
    { season_id: seasonOf('p1'), due_on: '1970-01-03' },
    { season_id: seasonOf('p2'), due_on: '1970-01-02' },
  ]);
});

test('more texts than go in one commit are all kept', async () => {
  const line = await testLine(onTestFinished);
  await Promise.all(Array.from({ length: MOST_TOGETHER * 2 + 1 }, () => send(line, ANN, 'ploughed 1')));
  expect(await line.db.selectFrom('reports').select('id').execute()).toHaveLength(MOST_TOGETHER * 2 + 1);
});
