/** Time per due reminder with the same number due among ever more plots: a sweep must follow what is due. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { USUAL_WAY } from '../agronomy/season.ts';
import { simulatedClock } from '../clock.ts';
import { isoDay } from '../plan/day.ts';
import { countedIds } from '../store/ids.ts';
import { sweepReminders } from '../sweeps/sweep-reminders.ts';
import { benchScheme } from './bench-scheme.ts';
import { openDeskLineOf } from './open-desk-line.ts';

const DUE = 1000;
const SIZES = [10_000, 100_000, 1_000_000];
const TODAY = 20_900;
const DAY_MS = 86_400_000;

/** One row per size, and how much the largest takes of the smallest. */
export async function benchSweep(): Promise<readonly string[]> {
  const rows: string[] = [];
  const times: number[] = [];
  for (const plots of SIZES) {
    const us = await timeSweep(plots);
    times.push(us);
    rows.push(
      `sweep: ${plots} plots, ${DUE} due: ${us.toFixed(0)} us a reminder; memory ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB`,
    );
  }
  return [
    ...rows,
    `sweep: from ${SIZES[0]} to ${SIZES.at(-1)} plots ${((times.at(-1) ?? 0) / (times[0] ?? 1)).toFixed(2)} times (at most 1.5)`,
  ];
}

async function timeSweep(plots: number): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'bundline-sweep-'));
  const path = join(folder, 'sweep.db');
  const clock = simulatedClock(TODAY * DAY_MS + 17.5 * 3_600_000);
  const parts = {
    path,
    clock,
    makeId: countedIds('b'),
    log: { info: () => {}, warn: console.error, error: console.error },
  };
  const line = await openDeskLineOf(benchScheme(), parts);
  try {
    fill(path, plots);
    const started = performance.now();
    const queued = await sweepReminders(line);
    const us = ((performance.now() - started) * 1000) / DUE;
    if (queued !== DUE) throw new Error(`${queued} reminders were queued instead of ${DUE}`);
    return us;
  } finally {
    await line.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Plots with one grower and one reminder each; every so many is due today. Ploughed a day ago: flooding is due tomorrow. */
function fill(path: string, plots: number): void {
  const file = new Database(path);
  const scheme = file.prepare<[], { id: string }>('select id from schemes').get()?.id;
  const block = file.prepare<[], { id: string }>('select id from blocks').get()?.id;
  const way = JSON.stringify(USUAL_WAY);
  const insert = {
    person: file.prepare(
      `insert into people (id, scheme_id, name, lang, role, forgotten) values (?, ?, 'Grower', 'en', 'grower', 0)`,
    ),
    phone: file.prepare(`insert into phones (number, turns, stopped) values (?, 0, 0)`),
    link: file.prepare('insert into phone_people values (?, ?, 0)'),
    plot: file.prepare(
      `insert into plots (id, scheme_id, number, owner_id, block_id, area_ha) values (?, ?, '1', ?, ?, 0.3)`,
    ),
    season: file.prepare(
      `insert into seasons (id, plot_id, open, way, variety_days, choices) values (?, ?, 1, ?, 120, '{}')`,
    ),
    report: file.prepare(
      `insert into reports (id, season_id, batch, phone, turn, activity, stage, done_on, measures, said_ms) values (?, ?, 'b', null, 0, 'plough', 'finished', ?, '{}', 0)`,
    ),
    reminder: file.prepare(`insert into reminders values (?, ?, 'flood', 'tomorrow', ?, ?, 0)`),
  };
  file.pragma('foreign_keys = OFF');
  file.transaction(() => {
    for (let index = 0; index < plots; index++) {
      const id = `x${String(index).padStart(7, '0')}`;
      const on = isoDay(index % (plots / DUE) === 0 ? TODAY : TODAY + 1 + (index % 90));
      insert.person.run(id, scheme);
      insert.phone.run(id);
      insert.link.run(id, id);
      insert.plot.run(id, scheme, id, block);
      insert.season.run(id, id, way);
      insert.report.run(id, id, isoDay(TODAY));
      insert.reminder.run(scheme, id, on, on);
    }
  })();
  file.close();
}
