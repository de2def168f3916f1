import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { sql } from 'kysely';
import { expect, onTestFinished, test } from 'vitest';
import { MIGRATIONS, migrate } from '../../src/store/migrate.ts';
import { openDatabase } from '../../src/store/open.ts';
import { newFolder } from '../support/test-line.ts';

function opened(path: string) {
  const db = openDatabase(path);
  onTestFinished(() => db.destroy());
  return db;
}

async function pragma(db: ReturnType<typeof opened>, name: string) {
  const { rows } = await sql<Record<string, unknown>>`select * from ${sql.raw(`pragma_${name}`)}`.execute(db);
  return Object.values(rows[0] ?? {})[0];
}

test('every connection, not only the first, is durable and keeps references', async () => {
  const path = join(newFolder(onTestFinished), 'deep', 'line.db');
  for (const db of [opened(path), opened(path)]) {
    expect(await pragma(db, 'journal_mode')).toBe('wal');
    expect(await pragma(db, 'synchronous')).toBe(2);
    expect(await pragma(db, 'foreign_keys')).toBe(1);
    expect(await pragma(db, 'busy_timeout')).toBe(5000);
  }
});

test('a path that cannot be opened says so', () => {
  const folder = newFolder(onTestFinished);
  mkdirSync(join(folder, 'line.db'));
  expect(() => openDatabase(join(folder, 'line.db'))).toThrow(/unable to open/);
});

test('migrations are applied once, and two starts at the same time do not hurt each other', async () => {
  const path = join(newFolder(onTestFinished), 'line.db');
  const [one, two] = [opened(path), opened(path)];
  const applied = [...(await migrate(one)), ...(await migrate(two)), ...(await migrate(one))];
  expect(applied).toEqual(Object.keys(MIGRATIONS));
});

test('a migration that fails leaves nothing behind and can be tried again', async () => {
  const db = opened(join(newFolder(onTestFinished), 'line.db'));
  await sql`create table outbox (x text)`.execute(db);
  await expect(migrate(db)).rejects.toThrow('migrations stopped at 0001-first-tables; nothing was changed');
  const { rows } = await sql<{ name: string }>`select name from sqlite_master where name = 'schemes'`.execute(
    db,
  );
  expect(rows).toEqual([]);
  await sql`drop table outbox`.execute(db);
  expect(await migrate(db)).toEqual(Object.keys(MIGRATIONS));
});

test('the committed schema is the one that the migrations make', async () => {
  const db = opened(':memory:');
  await migrate(db);
  const { rows } = await sql<{ sql: string }>`
    select sql from sqlite_master where sql is not null and name not like 'kysely%' order by tbl_name, type desc, name
  `.execute(db);
  const dump = rows.map((row) => `${row.sql.replace(/, /g, ',\n  ').replace(' (', ' (\n  ')};\n`).join('\n');
  await expect(dump).toMatchFileSnapshot('schema.sql');
});

test('a transaction takes the write lock when it begins, so that a read cannot turn into a refused write', async () => {
  const path = join(newFolder(onTestFinished), 'line.db');
  const db = opened(path);
  await migrate(db);
  const other = new Database(path, { timeout: 0 });
  onTestFinished(() => void other.close());
  await db.transaction().execute(async (trx) => {
    await trx.selectFrom('phones').selectAll().execute();
    expect(() => other.exec("insert into phones (number, turns, stopped) values ('x', 0, 0)")).toThrow(
      /locked/,
    );
    await trx.insertInto('phones').values({ number: 'y', turns: 0, stopped: 0 }).execute();
  });
});
