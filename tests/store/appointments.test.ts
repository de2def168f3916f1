import { expect, onTestFinished, test } from 'vitest';
import { moveQueuing } from '../../src/store/broadcasts.ts';
import type { Db } from '../../src/store/open.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { sendBroadcast, stateOf, waterOf, wordsOf } from '../support/broadcasts.ts';
import { DATABASES } from '../support/databases.ts';
import { manyPhone, plantMany } from '../support/many-growers.ts';
import { NOON_MS } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const TODAY = 20_887;

async function appointments(db: Db) {
  const rows = await db.selectFrom('appointments').selectAll().orderBy('plot_id').orderBy('kind').execute();
  const hourOf = (visit: string | null) =>
    visit === null ? null : (JSON.parse(visit) as { start: { hour: number } }).start.hour;
  return rows.map((row) => [
    row.plot_id.split('/')[1],
    row.broadcast_id,
    hourOf(row.visit),
    hourOf(row.before),
  ]);
}

/** As if every grower had been told. */
async function tell(db: Db, id: string) {
  await db.updateTable('broadcasts').set({ state: 'sending' }).where('id', '=', id).execute();
}

for (const { name, open } of DATABASES) {
  const valley = async () => {
    const db = await open(onTestFinished);
    await plantScheme(db, await seedOfFile(db, VALLEY, NOON_MS));
    return db;
  };

  test(`${name}: words are kept with their head, to be queued`, async () => {
    const db = await valley();
    await sendBroadcast(db, 'b1', wordsOf('canal closed'));
    const row = await db.selectFrom('broadcasts').selectAll().executeTakeFirstOrThrow();
    expect(JSON.parse(row.head)).toEqual(wordsOf('canal closed'));
    expect(row).toMatchObject({ state: 'queuing', next_after: '', created_ms: NOON_MS, queued_ms: null });
    expect(await appointments(db)).toEqual([]);
  });

  test(`${name}: a plot's appointment with what stood before; what is the same is not touched`, async () => {
    const db = await valley();
    await sendBroadcast(db, 'b1', waterOf({ p1: [TODAY, 6], p2: [TODAY, 8], p3: [TODAY, 10] }));
    await tell(db, 'b1');
    await sendBroadcast(db, 'b2', waterOf({ p1: [TODAY, 6], p2: [TODAY, 9], p3: null, p4: null }));
    expect(await appointments(db)).toEqual([
      ['p1', 'b1', 6, null],
      ['p2', 'b2', 9, 8],
      ['p3', 'b2', null, 10],
    ]);
    expect(JSON.parse((await headOf(db, 'b2')).head)).not.toHaveProperty('appointments');
  });

  test(`${name}: after an appointment was taken away, nothing stood before the next`, async () => {
    const db = await valley();
    for (const [id, turn] of [
      ['b1', [TODAY, 6]],
      ['b2', null],
      ['b3', [TODAY, 7]],
    ] as const) {
      await sendBroadcast(db, id, waterOf({ p1: turn }));
      await tell(db, id);
    }
    expect(await appointments(db)).toEqual([['p1', 'b3', 7, null]]);
  });

  test(`${name}: what no grower was told yet did not stand before`, async () => {
    const db = await valley();
    await sendBroadcast(db, 'b1', waterOf({ p1: [TODAY, 6], p3: [TODAY, 6] }));
    await moveQueuing(db, 'b1', 'test-valley/ann');
    await sendBroadcast(db, 'b2', waterOf({ p1: [TODAY, 7], p3: [TODAY, 7] }));
    expect(await appointments(db)).toEqual([
      ['p1', 'b2', 7, 6],
      ['p3', 'b2', 7, null],
    ]);
  });

  test(`${name}: water and team are apart; of two for one plot the later counts`, async () => {
    const db = await valley();
    const water = waterOf({ p1: [TODAY, 6] });
    if (water.kind !== 'water') throw new Error('water');
    await sendBroadcast(db, 'b1', water);
    const team = { ...water, kind: 'team', teamId: 't', teamName: 'Tractor', activity: 'plough' } as const;
    const again = waterOf({ p1: [TODAY, 9] });
    const both = [...water.appointments, ...(again.kind === 'water' ? again.appointments : [])];
    await sendBroadcast(db, 'b2', { ...team, appointments: both });
    expect(await appointments(db)).toEqual([
      ['p1', 'b2', 9, null],
      ['p1', 'b1', 6, null],
    ]);
  });

  test(`${name}: a plot that is not there takes the whole broadcast back`, async () => {
    const db = await valley();
    await expect(sendBroadcast(db, 'b1', waterOf({ p1: [TODAY, 6], p9: [TODAY, 6] }))).rejects.toThrow();
    expect(await appointments(db)).toEqual([]);
    await expect(stateOf(db, 'b1')).rejects.toThrow();
  });

  test(`${name}: ten thousand plots at once, of which half change`, async () => {
    const db = await valley();
    await plantMany(db, 10_000);
    expect(manyPhone(0)).toBe('+44770090000000');
    const all = (hour: (i: number) => number) => ({
      ...waterOf({}),
      appointments: Array.from({ length: 10_000 }, (_, i) => {
        const start = { day: TODAY, hour: hour(i) };
        return { plotId: `m${String(i).padStart(7, '0')}`, visit: { start, end: { day: TODAY, hour: 20 } } };
      }),
    });
    await sendBroadcast(db, 'b1', all(() => 6) as ReturnType<typeof waterOf>);
    await tell(db, 'b1');
    await sendBroadcast(db, 'b2', all((i) => 6 + (i % 2)) as ReturnType<typeof waterOf>);
    const rows = await appointments(db);
    const under = (id: string) => rows.filter((row) => row[1] === id);
    expect(under('b1')).toHaveLength(5000);
    expect(under('b2')).toHaveLength(5000);
    expect(under('b2').every(([, , visit, before]) => visit === 7 && before === 6)).toBe(true);
  });
}

const headOf = (db: Db, id: string) =>
  db.selectFrom('broadcasts').select('head').where('id', '=', id).executeTakeFirstOrThrow();
