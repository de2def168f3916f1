import { describe, expect, onTestFinished, test } from 'vitest';
import { USUAL_WAY } from '../../src/agronomy/season.ts';
import type { NewPlot, PeopleChange } from '../../src/scheme/people-change.ts';
import { changePeople } from '../../src/store/change-people.ts';
import { countedIds } from '../../src/store/ids.ts';
import { loadPhone } from '../../src/store/load-phone.ts';
import type { Db } from '../../src/store/open.ts';
import { phoneToRemind } from '../../src/store/people.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { DATABASES } from '../support/databases.ts';
import { NOON_MS } from '../support/test-line.ts';
import { ANN, BEN, CYN_AND_DAN, STRANGER, seasonOf, VALLEY } from '../support/valley-scheme.ts';

const VISIT = JSON.stringify({ start: { day: 20893, hour: 6 }, end: { day: 20894, hour: 12 } });

const SCHEME = 'test-valley';
const id = (name: string) => `${SCHEME}/${name}`;
const WATER = 'water: { from: "2027-02-20", to: null }, target: { from: "2027-03-25", to: "2027-04-05" }';
const TWO_BLOCKS = VALLEY.replace('people:\n', `  - { id: lower, name: Lower, ${WATER} }\npeople:\n`);

const plant = async (db: Db, text: string) => plantScheme(db, await seedOfFile(db, text, NOON_MS));

async function valley(open: (typeof DATABASES)[number]['open']) {
  const db = await open(onTestFinished);
  await plant(db, TWO_BLOCKS);
  const makeId = countedIds('c');
  const change = (one: PeopleChange) =>
    db.transaction().execute((trx) => changePeople(trx, SCHEME, one, makeId));
  return { db, change };
}

const newPlot = (given: Partial<NewPlot> = {}): NewPlot => ({
  number: '1',
  label: 'B-1',
  blockId: id('upper'),
  areaHa: 0.3,
  way: USUAL_WAY,
  varietyDays: 115,
  place: null,
  ...given,
});
const grower = (name: string, phone: string, ...plots: readonly NewPlot[]): PeopleChange => ({
  kind: 'add-grower',
  name,
  lang: 'en',
  phone,
  plots,
});

/** Every plot with an open season: "label owner number block place". */
async function openPlots(db: Db) {
  const rows = await db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .innerJoin('people', 'people.id', 'plots.owner_id')
    .innerJoin('blocks', 'blocks.id', 'plots.block_id')
    .select(['plots.label', 'plots.number', 'plots.place', 'people.name', 'blocks.name as block'])
    .where('seasons.open', '=', 1)
    .orderBy('plots.label')
    .execute();
  return rows.map((row) => `${row.label} ${row.name} ${row.number} ${row.block} ${row.place}`);
}

const PLANTED = [
  'A-1 Ann 1 Upper 1',
  'A-2 Ann 2 Upper 2',
  'A-3 Ben 1 Upper 3',
  'A-4 Cyn 1 Upper 4',
  'A-5 Dan 2 Upper 5',
];

async function remindOf(db: Db, plot: string, on: string, sent: 0 | 1) {
  const what = { scheme_id: SCHEME, season_id: seasonOf(plot), activity: 'plough', why: 'tomorrow' };
  await db
    .insertInto('reminders')
    .values({ ...what, due_on: on, look_on: on, sent })
    .execute();
}

async function reportOf(db: Db, plot: string) {
  const text = { id: `text-${plot}`, carrier_id: `carrier-${plot}`, phone: ANN, turn: 1, body: 'ploughed' };
  await db
    .insertInto('texts_in')
    .values({ ...text, received_ms: NOON_MS, faulty: 0 })
    .execute();
  const report = { id: `report-${plot}`, season_id: seasonOf(plot), batch: text.id, phone: ANN, turn: 1 };
  const what = {
    activity: 'plough',
    stage: 'finished',
    done_on: '2027-03-10',
    measures: '{}',
    said_ms: NOON_MS,
  };
  await db
    .insertInto('reports')
    .values({ ...report, ...what })
    .execute();
}

async function waterOf(db: Db, plot: string) {
  const head = { scheme_id: SCHEME, phone: BEN, head: '{}', state: 'told', next_after: '' } as const;
  await db
    .insertInto('broadcasts')
    .values({ id: `b-${plot}`, ...head, created_ms: 0 })
    .execute();
  await db
    .insertInto('appointments')
    .values({ plot_id: id(plot), kind: 'water', broadcast_id: `b-${plot}`, visit: VISIT })
    .execute();
}

describe.each(DATABASES)('$name: an agent', ({ open }) => {
  test('adds a grower on a new phone, with plots at the end of the canal or at their place', async () => {
    const { db, change } = await valley(open);
    await change(grower('Zola', STRANGER, newPlot(), newPlot({ number: '2', label: 'B-2', place: 3 })));
    expect(await openPlots(db)).toEqual([...PLANTED, 'B-1 Zola 1 Upper 6', 'B-2 Zola 2 Upper 3']);
    const facts = await loadPhone(db, STRANGER);
    expect(facts.people).toMatchObject([{ name: 'Zola', lang: 'en', role: 'grower', schemeId: SCHEME }]);
    expect(facts.plots[0]?.season).toMatchObject({ areaHa: 0.3, varietyDays: 115, way: USUAL_WAY });
    expect(await phoneToRemind(db, facts.people[0]?.id ?? '')).toBe(STRANGER);
  });

  test('adds plots to the grower of that name who uses the phone, and a second person to a phone', async () => {
    const { db, change } = await valley(open);
    await change(grower(' ann', ANN, newPlot({ number: '3' })));
    await change(grower('Zola', ANN, newPlot({ number: '1', label: 'B-2' })));
    const { people, plots } = await loadPhone(db, ANN);
    expect(people.map(({ name }) => name).sort()).toEqual(['Ann', 'Zola']);
    expect(plots.map(({ number, label }) => `${number} ${label}`)).toEqual([
      '1 A-1',
      '2 A-2',
      '3 B-1',
      '4 B-2',
    ]);
  });

  test('adds, moves and gives a plot', async () => {
    const { db, change } = await valley(open);
    await change({
      kind: 'add-plot',
      growerId: id('ben'),
      plot: newPlot({ number: '2', blockId: id('lower') }),
    });
    await change({ kind: 'move-plot', plotId: id('p1'), blockId: id('lower') });
    await change({ kind: 'give-plot', plotId: id('p2'), growerId: id('ben'), number: '7' });
    await change({ kind: 'give-plot', plotId: id('p4'), growerId: id('dan'), number: '1' });
    expect(await openPlots(db)).toEqual([
      'A-1 Ann 1 Lower 2',
      'A-2 Ben 7 Upper 2',
      'A-3 Ben 1 Upper 3',
      'A-4 Dan 1 Upper 4',
      'A-5 Dan 2 Upper 5',
      'B-1 Ben 2 Lower 1',
    ]);
  });

  test('removes a plot: reminders and appointments end, reports and what was sent stay, its names are free', async () => {
    const { db, change } = await valley(open);
    await remindOf(db, 'p1', '2027-03-11', 0);
    await remindOf(db, 'p1', '2027-03-09', 1);
    await remindOf(db, 'p2', '2027-03-11', 0);
    await reportOf(db, 'p1');
    await waterOf(db, 'p1');
    await waterOf(db, 'p2');
    await change({ kind: 'remove-plot', plotId: id('p1') });
    expect(await openPlots(db)).toEqual(PLANTED.slice(1));
    const left = await db.selectFrom('reminders').select(['season_id', 'sent']).orderBy('due_on').execute();
    expect(left).toEqual([
      { season_id: seasonOf('p1'), sent: 1 },
      { season_id: seasonOf('p2'), sent: 0 },
    ]);
    expect(await db.selectFrom('appointments').select('plot_id').execute()).toEqual([{ plot_id: id('p2') }]);
    expect(await db.selectFrom('reports').select('id').execute()).toEqual([{ id: 'report-p1' }]);
    await change({ kind: 'add-plot', growerId: id('ann'), plot: newPlot({ label: 'a1', number: '1' }) });
    expect((await loadPhone(db, ANN)).plots.map(({ number, label }) => `${number} ${label}`)).toEqual([
      '1 a1',
      '2 A-2',
    ]);
  });

  test('removes a grower: no plots, no phone, no queued text, but the name for the record', async () => {
    const { db, change } = await valley(open);
    const queued = {
      state: 'queued',
      created_ms: 0,
      not_before_ms: 0,
      expires_ms: 1,
      lease_until_ms: 0,
    } as const;
    for (const phone of [BEN, CYN_AND_DAN])
      await db
        .insertInto('outbox')
        .values({ id: phone, key: phone, phone, text: 'x', attempts: 0, ...queued })
        .execute();
    await change({ kind: 'remove-grower', growerId: id('ben') });
    await change({ kind: 'remove-grower', growerId: id('cyn') });
    expect(await loadPhone(db, BEN)).toMatchObject({ people: [], plots: [] });
    expect((await loadPhone(db, CYN_AND_DAN)).people.map(({ name }) => name)).toEqual(['Dan']);
    expect(await db.selectFrom('outbox').select('phone').execute()).toEqual([{ phone: CYN_AND_DAN }]);
    const ben = db.selectFrom('people').select(['name', 'forgotten']).where('id', '=', id('ben'));
    expect(await ben.executeTakeFirst()).toEqual({ name: 'Ben', forgotten: 0 });
  });
});

describe.each(DATABASES)('$name: refused, and nothing is changed', ({ open }) => {
  const refused: readonly (readonly [string, PeopleChange])[] = [
    ['no plot', { kind: 'move-plot', plotId: id('p9'), blockId: id('lower') }],
    ['no block', { kind: 'move-plot', plotId: id('p1'), blockId: id('nowhere') }],
    ['no plot', { kind: 'give-plot', plotId: 'other/p1', growerId: id('ben'), number: '2' }],
    ['no grower', { kind: 'give-plot', plotId: id('p1'), growerId: id('eve'), number: '2' }],
    ['no plot', { kind: 'remove-plot', plotId: id('p9') }],
    ['no grower', { kind: 'remove-grower', growerId: id('nobody') }],
    ['no grower', { kind: 'add-plot', growerId: id('nobody'), plot: newPlot() }],
    ['the label', { kind: 'add-plot', growerId: id('ann'), plot: newPlot({ label: 'a01' }) }],
    ['no block', grower('Zola', STRANGER, newPlot(), newPlot({ label: 'B-2', blockId: 'x' }))],
    ['the label', grower('Zola', STRANGER, newPlot(), newPlot())],
  ];

  test.each(refused)('%s: %j', async (why, one) => {
    const { db, change } = await valley(open);
    const people = await db.selectFrom('people').select('id').execute();
    await expect(change(one)).rejects.toThrow(why);
    expect(await openPlots(db)).toEqual(PLANTED);
    expect(await db.selectFrom('people').select('id').execute()).toEqual(people);
  });

  test('a plot or a grower that was removed is not there any more', async () => {
    const { change } = await valley(open);
    await change({ kind: 'remove-plot', plotId: id('p1') });
    await change({ kind: 'remove-grower', growerId: id('ben') });
    await expect(change({ kind: 'remove-plot', plotId: id('p1') })).rejects.toThrow('no plot');
    await expect(change({ kind: 'remove-plot', plotId: id('p3') })).rejects.toThrow('no plot');
    const give = { kind: 'give-plot', plotId: id('p2'), growerId: id('ben'), number: '1' } as const;
    await expect(change(give)).rejects.toThrow('no grower');
  });
});

describe.each(DATABASES)('$name: the file planted again', ({ open }) => {
  test('does not bring back what was removed, nor put back what was moved or given', async () => {
    const { db, change } = await valley(open);
    await change({ kind: 'remove-plot', plotId: id('p1') });
    await change({ kind: 'move-plot', plotId: id('p2'), blockId: id('lower') });
    await change({ kind: 'give-plot', plotId: id('p4'), growerId: id('ben'), number: '2' });
    await change({ kind: 'remove-grower', growerId: id('dan') });
    const before = await openPlots(db);
    const removed = db.selectFrom('plots').selectAll().where('id', '=', id('p1'));
    const record = await removed.execute();
    const again = TWO_BLOCKS.replace('remindAt: "17:00"', 'remindAt: "16:00"')
      .replace(
        'label: A-1, owner: ann, block: upper, areaHa: 0.4',
        'label: A-9, owner: ann, block: lower, areaHa: 2',
      )
      .replace(
        'name: Dan, lang: en, phones: ["+447700900003"]',
        'name: Dan, lang: en, phones: ["+447700900053"]',
      );
    expect(await plant(db, again)).toBe('planted');
    expect(await openPlots(db)).toEqual(before);
    expect(await removed.execute()).toEqual(record);
    expect(before).toEqual(['A-2 Ann 2 Lower 1', 'A-3 Ben 1 Upper 3', 'A-4 Ben 2 Upper 4']);
    expect((await loadPhone(db, '+447700900053')).people).toEqual([]);
  });

  test('wins where it changes the very field, and takes the number or place that goes with it', async () => {
    const { db, change } = await valley(open);
    await change({ kind: 'move-plot', plotId: id('p2'), blockId: id('lower') });
    await change({ kind: 'give-plot', plotId: id('p4'), growerId: id('ben'), number: '2' });
    const again = TWO_BLOCKS.replace(
      'number: "1", label: A-4, owner: cyn',
      'number: "3", label: A-4, owner: dan',
    );
    await plant(db, again);
    expect(await openPlots(db)).toContain('A-4 Dan 3 Upper 4');
    expect(await openPlots(db)).toContain('A-2 Ann 2 Lower 1');
    await plant(
      db,
      again.replace('label: A-2, owner: ann, block: upper', 'label: A-2, owner: ann, block: lower'),
    );
    expect(await openPlots(db)).toContain('A-2 Ann 2 Lower 2');
  });

  test('does not renumber a plot that another grower has, nor place one in another block by its line', async () => {
    const { db, change } = await valley(open);
    await change({ kind: 'move-plot', plotId: id('p2'), blockId: id('lower') });
    await change({ kind: 'give-plot', plotId: id('p4'), growerId: id('ben'), number: '2' });
    const first =
      '  - { id: p0, number: "9", label: A-0, owner: ann, block: upper, areaHa: 1, varietyDays: 120, way: { tillage: hoe } }\n';
    await plant(
      db,
      TWO_BLOCKS.replace('plots:\n', `plots:\n${first}`).replace(
        'number: "1", label: A-4',
        'number: "8", label: A-44',
      ),
    );
    expect(await openPlots(db)).toEqual([
      'A-0 Ann 9 Upper 1',
      'A-1 Ann 1 Upper 2',
      'A-2 Ann 2 Lower 1',
      'A-3 Ben 1 Upper 4',
      'A-44 Ben 2 Upper 5',
      'A-5 Dan 2 Upper 6',
    ]);
  });
});
