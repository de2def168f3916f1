/** When a number was last known to be its people's, and codes that tie a second phone. */
import type { Kysely } from 'kysely';

/** The columns that the newest text of a number is found by. */
interface Texted {
  phones: { number: string; vouched_ms: number | null };
  texts_in: { phone: string | null; received_ms: number };
}

/** Applies the migration; a number that has texted was its people's then. */
export async function up(db: Kysely<never>): Promise<void> {
  await db.schema.alterTable('phones').addColumn('vouched_ms', 'bigint').execute();
  await db.schema
    .createTable('phone_offers')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('code', 'text', (c) => c.notNull())
    .addColumn('person_id', 'text', (c) => c.notNull().unique().references('people.id'))
    .addColumn('phone', 'text', (c) => c.notNull())
    .addColumn('until_ms', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('phone_offers_code').on('phone_offers').columns(['code']).execute();
  const texted = db as unknown as Kysely<Texted>;
  await texted
    .updateTable('phones')
    .set((eb) => ({
      vouched_ms: eb
        .selectFrom('texts_in')
        .select((one) => one.fn.max('texts_in.received_ms').as('newest'))
        .whereRef('texts_in.phone', '=', 'phones.number'),
    }))
    .execute();
}
