import { describe, expect, onTestFinished, test } from 'vitest';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Setting } from '../../src/store/load-phone.ts';
import { loadPhone, worldOf } from '../../src/store/load-phone.ts';
import { loadSchemes } from '../../src/store/load-schemes.ts';
import type { Db } from '../../src/store/open.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { addReport, type Bringer, undoReports } from '../../src/store/reports.ts';
import { keepTalk } from '../../src/store/talks.ts';
import { keepText } from '../../src/store/texts-in.ts';
import { seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { DATABASES } from '../support/databases.ts';
import { DAY_MS, NOON_MS } from '../support/test-line.ts';
import { ANN, BEN, BEN_AT_HOME, STRANGER, seasonOf, VALLEY } from '../support/valley-scheme.ts';

async function textFrom(db: Db, phone: string, turn: number, nowMs = NOON_MS): Promise<Bringer> {
  const batch = `${phone}#${turn}`;
  await keepTalk(db, { number: phone, turns: turn, lang: null, state: null, vouchedMs: null });
  const text = { id: batch, carrier_id: batch, phone, turn, body: 'x', received_ms: nowMs } as const;
  await keepText(db, { ...text, answer: null, faulty: 0 }, null);
  return { batch, phone, turn, nowMs };
}

function report(plot: string, on: number | null) {
  return {
    seasonId: seasonOf(plot),
    activity: 'plough',
    stage: 'finished',
    on,
    measures: { depthCm: 12, spotsCm: [3, 4] },
  } as const;
}

async function world(db: Db, phone: string) {
  const [scheme] = await loadSchemes(db);
  const setting = { scheme, rulebook: DEFAULT_RULEBOOK, today: 20_000, nowMs: NOON_MS } as Setting;
  return worldOf(await loadPhone(db, phone), setting);
}

describe.each(DATABASES)('$name', ({ open }) => {
  async function planted() {
    const db = await open(onTestFinished);
    await plantScheme(db, await seedOfFile(db, VALLEY, NOON_MS));
    return db;
  }

  test('a report comes back as it was given, with its text', async () => {
    const db = await planted();
    await addReport(db, 'r1', report('p1', 20_880), await textFrom(db, ANN, 1));
    await addReport(db, 'r2', report('p2', null), await textFrom(db, ANN, 2));
    const { plots, lastBatch } = await world(db, ANN);
    const kept = { activity: 'plough', stage: 'finished', measures: { depthCm: 12, spotsCm: [3, 4] } };
    expect(plots.map((plot) => plot.season.reports)).toEqual([
      [{ ...kept, id: 'r1', seasonId: seasonOf('p1'), batch: `${ANN}#1`, on: 20_880 }],
      [{ ...kept, id: 'r2', seasonId: seasonOf('p2'), batch: `${ANN}#2`, on: null }],
    ]);
    expect(lastBatch).toEqual({ id: `${ANN}#2`, reports: plots[1]?.season.reports });
  });

  test('an undo is another row: the report stays in the table and leaves the world', async () => {
    const db = await planted();
    const first = await textFrom(db, ANN, 1);
    await addReport(db, 'r1', report('p1', 1), first);
    const second = await textFrom(db, ANN, 2);
    await addReport(db, 'r2', report('p1', 2), second);
    await addReport(db, 'r3', report('p2', 2), second);
    const undo = await textFrom(db, ANN, 3);
    await undoReports(db, ['r2', 'r3'], undo);
    await undoReports(db, ['r2'], undo);
    expect((await world(db, ANN)).lastBatch).toMatchObject({ id: first.batch, reports: [{ id: 'r1' }] });
    expect(await db.selectFrom('reports').select('id').execute()).toHaveLength(3);
    expect(await db.selectFrom('undos').select('report_id').execute()).toHaveLength(2);
  });

  test('the last text is the last one texted, even when the clock went back in between', async () => {
    const db = await planted();
    await addReport(db, 'r1', report('p1', 1), await textFrom(db, ANN, 1, NOON_MS));
    await addReport(db, 'r2', report('p1', 2), await textFrom(db, ANN, 2, NOON_MS - DAY_MS));
    expect((await world(db, ANN)).lastBatch?.reports).toMatchObject([{ id: 'r2' }]);
  });

  test('both phones of a person see its reports; each takes back only what it brought', async () => {
    const db = await planted();
    await addReport(db, 'r1', report('p3', 1), await textFrom(db, BEN, 1));
    const home = await world(db, BEN_AT_HOME);
    expect(home.plots[0]?.season.reports).toHaveLength(1);
    expect(home.lastBatch).toBeNull();
    expect((await world(db, BEN)).lastBatch).not.toBeNull();
  });

  test('an unknown number has a world with nobody in it', async () => {
    const db = await planted();
    expect(await world(db, STRANGER)).toMatchObject({
      people: [],
      plots: [],
      lastBatch: null,
      stopped: false,
      cautioned: [],
    });
  });
});
