/**
 * Writes a scheme file into the database: new things are added, what the file changed is updated, and what growers
 * said themselves (a language, a name, a way, a report) stays unless the file changed that very field.
 */
import { createHash } from 'node:crypto';
import type { Day } from '../plan/day.ts';
import type { Db } from './open.ts';
import { plantBlocks, plantScheme as plantSchemeRow } from './plant-blocks.ts';
import { plantPeople } from './plant-people.ts';
import { plantPlots } from './plant-plots.ts';
import type { SchemeSeed } from './scheme-seed.ts';
import { dayOfColumn } from './span-columns.ts';

/** Plants the scheme in one transaction; says "unchanged" when this very content was planted before. */
export async function plantScheme(db: Db, seed: SchemeSeed): Promise<'planted' | 'unchanged'> {
  const digest = createHash('sha256').update(JSON.stringify(seed)).digest('hex');
  const known = await db.selectFrom('schemes').select('digest').where('id', '=', seed.id).executeTakeFirst();
  if (known?.digest === digest) return 'unchanged';
  await db.transaction().execute(async (trx) => {
    await plantSchemeRow(trx, seed, digest);
    await plantBlocks(trx, seed);
    await plantPeople(trx, seed);
    await plantPlots(trx, seed);
  });
  return 'planted';
}

/** The day on which the scheme was first planted; null when it never was. */
export async function firstLoadedOn(db: Db, schemeId: string): Promise<Day | null> {
  const row = await db
    .selectFrom('schemes')
    .select('loaded_on')
    .where('id', '=', schemeId)
    .executeTakeFirst();
  return dayOfColumn(row?.loaded_on ?? null);
}
