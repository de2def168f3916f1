/** Sessions of numbered screens: one row for each phone, its newest session. */
import type { Kysely } from 'kysely';

/** Applies the migration. */
export async function up(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('ussd_sessions')
    .addColumn('phone', 'text', (c) => c.primaryKey())
    .addColumn('session_id', 'text')
    .addColumn('version', 'integer', (c) => c.notNull())
    .addColumn('screen', 'text', (c) => c.notNull())
    .addColumn('seen', 'text', (c) => c.notNull())
    .addColumn('restarted', 'integer', (c) => c.notNull())
    .addColumn('hit_id', 'text')
    .addColumn('hops', 'integer', (c) => c.notNull())
    .addColumn('answer', 'text', (c) => c.notNull())
    .addColumn('ended', 'integer', (c) => c.notNull())
    .addColumn('last_ms', 'bigint', (c) => c.notNull())
    .addColumn('expires_ms', 'bigint', (c) => c.notNull())
    .execute();
}
