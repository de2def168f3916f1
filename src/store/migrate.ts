/** Brings a database to the present shape by the numbered migrations, in order, each once. */
import type { Kysely, Migration, MigrationProvider } from 'kysely';
import { Migrator } from 'kysely';
import * as firstTables from './migrations/0001-first-tables.ts';
import * as theGroup from './migrations/0002-the-group.ts';
import * as realCarriers from './migrations/0003-real-carriers.ts';
import * as ussd from './migrations/0004-ussd.ts';
import * as parts from './migrations/0005-parts.ts';
import * as whosePhones from './migrations/0006-whose-phones.ts';
import type { Tables } from './tables.ts';

/** Every migration under its number; a number that was released never changes. */
export const MIGRATIONS: Readonly<Record<string, Migration>> = {
  '0001-first-tables': firstTables,
  '0002-the-group': theGroup,
  '0003-real-carriers': realCarriers,
  '0004-ussd': ussd,
  '0005-parts': parts,
  '0006-whose-phones': whosePhones,
};

const provider: MigrationProvider = { getMigrations: async () => ({ ...MIGRATIONS }) };

/** Applies what is missing and returns the names applied; throws when one fails, leaving the database as it was. */
export async function migrate(db: Kysely<Tables>): Promise<readonly string[]> {
  const { error, results } = await new Migrator({ db, provider }).migrateToLatest();
  if (error !== undefined) {
    const failed = results?.find((result) => result.status === 'Error')?.migrationName ?? 'their preparation';
    throw new Error(`migrations stopped at ${failed}; nothing was changed`, { cause: error });
  }
  return (results ?? []).map((result) => result.migrationName);
}
