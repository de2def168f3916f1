/** What a carrier that texts real phones makes known: tries whose end is not known, receipts, its own count of parts. */
import type { Kysely } from 'kysely';

/** Applies the migration. */
export async function up(db: Kysely<never>): Promise<void> {
  const toOutbox = (column: string) =>
    db.schema.alterTable('outbox').addColumn(column, 'integer', (c) => c.notNull().defaultTo(0));
  await toOutbox('doubtful').execute();
  await toOutbox('receipt').execute();
  await db.schema.alterTable('outbox').addColumn('carrier_parts', 'integer').execute();
  await db.schema
    .alterTable('phones')
    .addColumn('gone', 'integer', (c) => c.notNull().defaultTo(0))
    .execute();
  await db.schema.createIndex('phones_gone').on('phones').columns(['gone']).execute();
}
