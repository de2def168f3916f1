/** Sizes and prices of texts out, in and of answers, when a text was handed over, and a second mark of a delivery. */
import type { Kysely } from 'kysely';
import { measure } from '../../say/parts.ts';

/** The columns that texts of before are measured by. */
interface Measured {
  outbox: { id: string; text: string; encoding: string | null; units: number | null; parts: number | null };
}

/** Texts measured with one look. */
const TEXTS_TOGETHER = 500;

/** Applies the migration; what texts cost before is not known and stays empty. */
export async function up(db: Kysely<never>): Promise<void> {
  const add = (table: string, column: string, type: 'text' | 'integer' | 'bigint') =>
    db.schema.alterTable(table).addColumn(column, type).execute();
  for (const table of ['outbox', 'texts_in']) {
    await add(table, 'encoding', 'text');
    await add(table, 'units', 'integer');
    await add(table, 'parts', 'integer');
  }
  await add('outbox', 'price', 'text');
  await add('outbox', 'currency', 'text');
  await add('outbox', 'handed_ms', 'bigint');
  await add('texts_in', 'carrier_parts', 'integer');
  await add('texts_in', 'answer_encoding', 'text');
  await add('texts_in', 'answer_units', 'integer');
  await add('texts_in', 'answer_parts', 'integer');
  await add('texts_in', 'answer_price', 'text');
  await add('texts_in', 'currency', 'text');
  await add('texts_in', 'delivery_token', 'text');
  await db.schema
    .alterTable('texts_in')
    .addColumn('answer_queued', 'integer', (c) => c.notNull().defaultTo(0))
    .execute();
  await db.schema.createIndex('outbox_handed').on('outbox').columns(['handed_ms']).execute();
  await db.schema.createIndex('texts_in_received').on('texts_in').columns(['received_ms']).execute();
  await db.schema.createIndex('texts_in_token').unique().on('texts_in').columns(['delivery_token']).execute();
  await measureOld(db);
}

async function measureOld(any: Kysely<never>): Promise<void> {
  const db = any as unknown as Kysely<Measured & { outbox: Handed }>;
  await db
    .updateTable('outbox')
    .set((eb) => ({ handed_ms: eb.ref('settled_ms') }))
    .where('carrier_id', 'is not', null)
    .execute();
  for (let after = ''; ; ) {
    const texts = db.selectFrom('outbox').select(['id', 'text']).where('id', '>', after).orderBy('id');
    const some = await texts.limit(TEXTS_TOGETHER).execute();
    for (const { id, text } of some)
      await db.updateTable('outbox').set(measure(text)).where('id', '=', id).execute();
    const last = some.at(-1);
    if (last === undefined) return;
    after = last.id;
  }
}

interface Handed {
  carrier_id: string | null;
  settled_ms: number | null;
  handed_ms: number | null;
}
