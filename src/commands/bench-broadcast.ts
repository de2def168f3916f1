/** Time and memory to queue words for ever more growers, against a bare insert of the same rows in the same transactions. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { USUAL_WAY } from '../agronomy/season.ts';
import { simulatedClock } from '../clock.ts';
import { keepBroadcast } from '../store/broadcasts.ts';
import { randomId } from '../store/ids.ts';
import { migrate } from '../store/migrate.ts';
import { openDatabase } from '../store/open.ts';
import { type NewText, queueTexts } from '../store/outbox.ts';
import type { OpenLine } from '../sweeps/open-line.ts';
import { sweepBroadcasts } from '../sweeps/sweep-broadcasts.ts';
import { benchScheme } from './bench-scheme.ts';
import { openDeskLineOf } from './open-desk-line.ts';

const SIZES = [10_000, 100_000] as const;
/** Texts in one transaction, as the sweep has them. */
const TOGETHER = 500;
const NOON_MS = 20_900.5 * 86_400_000;
const MEGABYTE = 1e6;
/** Words to one block among many growers, most of them elsewhere. */
const FEW = 50;

/** One row per size with its ratio, one for few among many, and the growth from the smallest to the largest. */
export async function benchBroadcast(): Promise<readonly string[]> {
  const rows: string[] = [];
  const times: number[] = [];
  for (const growers of SIZES) {
    const { usQueued, usBare, memory } = await inFolder((folder) => timeQueuing(folder, growers));
    times.push(usQueued);
    rows.push(
      `broadcast: ${growers} growers: ${usQueued.toFixed(1)} us a text queued, bare insert ${usBare.toFixed(1)} us: ${(usQueued / usBare).toFixed(2)} times (at most 3); memory ${memory}`,
    );
  }
  const few = await inFolder((folder) => timeFew(folder, SIZES[1]));
  return [
    ...rows,
    `broadcast: from ${SIZES[0]} to ${SIZES[1]} growers ${((times[1] ?? 0) / (times[0] ?? 1)).toFixed(2)} times a text; words to ${FEW} among ${SIZES[1]}: ${few.toFixed(1)} ms in all`,
  ];
}

async function inFolder<Result>(work: (folder: string) => Promise<Result>): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'bundline-broadcast-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function timeQueuing(folder: string, growers: number) {
  const line = await lineWith(folder, growers, 'one');
  try {
    await words(line, 'bench/one');
    const before = process.memoryUsage();
    const started = performance.now();
    const queued = await sweepBroadcasts(line);
    const ms = performance.now() - started;
    const after = process.memoryUsage();
    if (queued < growers) throw new Error(`${queued} texts were queued instead of ${growers}`);
    const usBare = (await bareInsert(folder, line)) * (1000 / queued);
    return { usQueued: (ms * 1000) / queued, usBare, memory: memoryTold(before, after) };
  } finally {
    await line.close();
  }
}

const memoryTold = (before: NodeJS.MemoryUsage, after: NodeJS.MemoryUsage) =>
  (['rss', 'heapUsed'] as const)
    .map(
      (kind) =>
        `${kind} ${(before[kind] / MEGABYTE).toFixed(0)} -> ${(after[kind] / MEGABYTE).toFixed(0)} MB`,
    )
    .join(', ');

/** Milliseconds to insert what the broadcast queued into the outbox of another database. */
async function bareInsert(folder: string, line: OpenLine): Promise<number> {
  const db = openDatabase(join(folder, 'bare.db'));
  await migrate(db);
  const rows = await line.db.selectFrom('outbox').selectAll().orderBy('key').execute();
  const texts = rows.map(
    ({ id, key, phone, text, not_before_ms: notBeforeMs, expires_ms: expiresMs }): NewText => ({
      ...{ id, key, phone, text, notBeforeMs, expiresMs },
    }),
  );
  const started = performance.now();
  for (let at = 0; at < texts.length; at += TOGETHER) {
    const some = texts.slice(at, at + TOGETHER);
    await db.transaction().execute((trx) => queueTexts(trx, some, NOON_MS, null));
  }
  const ms = performance.now() - started;
  await db.destroy();
  return ms;
}

async function timeFew(folder: string, growers: number): Promise<number> {
  const line = await lineWith(folder, growers, 'elsewhere');
  try {
    const some = line.db.selectFrom('plots').select('id').where('block_id', '=', 'elsewhere').limit(FEW);
    const ids = (await some.execute()).map(({ id }) => id);
    await line.db.insertInto('blocks').values(blockOf('few')).execute();
    await line.db.updateTable('plots').set({ block_id: 'few' }).where('id', 'in', ids).execute();
    await words(line, 'few');
    const started = performance.now();
    const queued = await sweepBroadcasts(line);
    if (queued !== FEW) throw new Error(`${queued} texts were queued instead of ${FEW}`);
    return performance.now() - started;
  } finally {
    await line.close();
  }
}

const blockOf = (id: string) => ({ id, scheme_id: 'bench', name: id, place: 1 });

async function words(line: OpenLine, blockId: string): Promise<void> {
  const who = { agentId: 'bench/g0', agentName: 'Office', blockIds: [blockId], blockNames: ['One'] };
  const by = { schemeId: 'bench', batch: 'b', phone: '+447700900000', turn: 1, nowMs: NOON_MS };
  const broadcast = {
    ...who,
    kind: 'words',
    words: 'The canal is closed until Friday for repairs.',
  } as const;
  await line.together((trx) => keepBroadcast(trx, 'b', broadcast, by));
}

/** The bench scheme with so many growers beside its own, in its block or in one of their own. */
async function lineWith(folder: string, growers: number, block: 'one' | 'elsewhere'): Promise<OpenLine> {
  const path = join(folder, 'line.db');
  const log = { info: () => {}, warn: console.error, error: console.error };
  const parts = { path, clock: simulatedClock(NOON_MS), makeId: randomId, log };
  const line = await openDeskLineOf(benchScheme(), parts);
  if (block === 'elsewhere') await line.db.insertInto('blocks').values(blockOf('elsewhere')).execute();
  fill(path, growers, block === 'one' ? 'bench/one' : 'elsewhere');
  return line;
}

function fill(path: string, growers: number, block: string): void {
  const file = new Database(path);
  file.pragma('foreign_keys = OFF');
  const insert = {
    person: file.prepare(
      `insert into people (id, scheme_id, name, lang, role, forgotten) values (?, 'bench', 'Grower', 'en', 'grower', 0)`,
    ),
    phone: file.prepare(`insert into phones (number, turns, stopped) values (?, 0, 0)`),
    link: file.prepare('insert into phone_people values (?, ?, 0)'),
    plot: file.prepare(
      `insert into plots (id, scheme_id, number, owner_id, block_id, area_ha) values (?, 'bench', '1', ?, ?, 0.3)`,
    ),
    season: file.prepare(
      `insert into seasons (id, plot_id, open, way, variety_days, choices) values (?, ?, 1, ?, 120, '{}')`,
    ),
  };
  const way = JSON.stringify(USUAL_WAY);
  file.transaction(() => {
    for (let index = 0; index < growers; index++) {
      const id = `x${String(index).padStart(7, '0')}`;
      const phone = `+4477009${String(index).padStart(7, '0')}`;
      insert.person.run(id);
      insert.phone.run(phone);
      insert.link.run(phone, id);
      insert.plot.run(id, id, block);
      insert.season.run(id, id, way);
    }
  })();
  file.close();
}
