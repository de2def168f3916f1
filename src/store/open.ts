/** Opens the database file. The only file that knows it is SQLite: elsewhere SQL is what PostgreSQL would take too. */
import { mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, SqliteAdapter, SqliteDialect, type SqliteStatement } from 'kysely';
import type { Tables } from './tables.ts';

export type Db = Kysely<Tables>;

/** What must hold of a connection before anything is promised to a grower. */
const PRAGMAS = [
  { name: 'journal_mode', set: 'WAL', read: 'wal' },
  { name: 'synchronous', set: 'FULL', read: 2 },
  { name: 'foreign_keys', set: 'ON', read: 1 },
  { name: 'busy_timeout', set: '5000', read: 5000 },
  // 64 MB in kB; the default of 2 MB reads the same pages again and again.
  { name: 'cache_size', set: '-64000', read: -64000 },
] as const;

/** Statements kept ready. Only a handful are hot; the bound keeps odd ones from piling up. */
const STATEMENTS_KEPT = 200;

/**
 * Opens the file, making it and its folder when missing, and reads every setting back.
 * Throws when the path cannot be opened or the file system does not hold a setting.
 */
export function openDatabase(path: string): Db {
  if (path !== ':memory:') mkdirSync(dirname(resolve(path)), { recursive: true });
  const file = new Database(path);
  for (const pragma of PRAGMAS) {
    file.pragma(`${pragma.name} = ${pragma.set}`);
    const held = file.pragma(pragma.name, { simple: true });
    const memory = path === ':memory:' && pragma.name === 'journal_mode';
    if (held !== pragma.read && !memory) {
      file.close();
      throw new Error(`database setting ${pragma.name} is ${String(held)}, must be ${String(pragma.read)}`);
    }
  }
  return new Kysely<Tables>({ dialect: new LineDialect({ database: withReadyStatements(file) }) });
}

/** SQLite can change tables inside a transaction: a migration that fails, or that another start has begun, leaves no trace. */
class LineAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class LineDialect extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new LineAdapter();
  }
}

/**
 * Keeps prepared statements for reuse, and takes the write lock when a transaction begins: a transaction that reads
 * first and asks for the lock later fails at once when another process has written in between.
 */
function withReadyStatements(file: Database.Database) {
  const ready = new Map<string, SqliteStatement>();
  const prepare = (sql: string): SqliteStatement => {
    const known = ready.get(sql);
    if (known !== undefined) return known;
    if (ready.size >= STATEMENTS_KEPT) ready.clear();
    const statement = file.prepare<unknown[]>(sql === 'begin' ? 'begin immediate' : sql) as SqliteStatement;
    ready.set(sql, statement);
    return statement;
  };
  return { prepare, close: () => void file.close() };
}
