/** Writes a scheme's own row and its blocks. */
import { isoDay } from '../plan/day.ts';
import type { Executor } from './ready-query.ts';
import type { SchemeSeed } from './scheme-seed.ts';
import { dateColumn } from './span-columns.ts';
import { storedId } from './stored-id.ts';

/** Adds or updates the scheme's row; `digest` is the fingerprint of its file. */
export async function plantScheme(db: Executor, seed: SchemeSeed, digest: string): Promise<void> {
  const values = {
    name: seed.name,
    code: seed.code,
    time_zone: seed.timeZone,
    country: seed.country,
    settings: JSON.stringify(seed.settings),
    digest,
  };
  await db
    .insertInto('schemes')
    .values({ id: seed.id, loaded_on: isoDay(seed.loadedOn), ...values })
    .onConflict((on) => on.column('id').doUpdateSet(values))
    .execute();
}

/** Adds or updates the scheme's blocks, in the file's order. */
export async function plantBlocks(db: Executor, seed: SchemeSeed): Promise<void> {
  for (const [place, block] of seed.blocks.entries()) {
    const values = {
      name: block.name,
      place,
      water_from: dateColumn(block.water.from),
      water_to: dateColumn(block.water.to),
      target_from: dateColumn(block.target.from),
      target_to: dateColumn(block.target.to),
      rain_from: dateColumn(block.rainFrom ?? null),
      way: block.way === undefined ? null : JSON.stringify(block.way),
    };
    await db
      .insertInto('blocks')
      .values({ id: storedId(seed.id, block.id), scheme_id: seed.id, ...values })
      .onConflict((on) => on.column('id').doUpdateSet(values))
      .execute();
  }
}
