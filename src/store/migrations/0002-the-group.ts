/** What an agent needs: which blocks are whose, the order along the canal, broadcasts, appointments of plots, and who did what. */
import type { Kysely } from 'kysely';

/** Applies the migration. */
export async function up(db: Kysely<never>): Promise<void> {
  await db.schema.alterTable('people').addColumn('blocks', 'text').execute();
  await db.schema
    .alterTable('plots')
    .addColumn('place', 'integer', (c) => c.notNull().defaultTo(0))
    .execute();
  await db.schema.alterTable('seasons').addColumn('planned_on', 'text').execute();
  await db.schema.createIndex('plots_block').on('plots').columns(['block_id', 'place', 'id']).execute();
  await broadcastTables(db);
  await db.schema
    .createTable('agent_acts')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('scheme_id', 'text', (c) => c.notNull().references('schemes.id'))
    .addColumn('person_id', 'text', (c) => c.references('people.id'))
    .addColumn('batch', 'text', (c) => c.references('texts_in.id'))
    .addColumn('act', 'text', (c) => c.notNull())
    .addColumn('details', 'text', (c) => c.notNull())
    .addColumn('done_ms', 'bigint', (c) => c.notNull())
    .execute();
}

async function broadcastTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('broadcasts')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('scheme_id', 'text', (c) => c.notNull().references('schemes.id'))
    .addColumn('phone', 'text', (c) => c.notNull())
    .addColumn('head', 'text', (c) => c.notNull())
    .addColumn('state', 'text', (c) => c.notNull())
    .addColumn('next_after', 'text', (c) => c.notNull())
    .addColumn('created_ms', 'bigint', (c) => c.notNull())
    .addColumn('queued_ms', 'bigint')
    .execute();
  await db.schema.createIndex('broadcasts_state').on('broadcasts').columns(['state']).execute();
  await db.schema.createIndex('broadcasts_phone').on('broadcasts').columns(['phone']).execute();
  await sendingOrder(db);
  await db.schema
    .createTable('appointments')
    .addColumn('plot_id', 'text', (c) => c.notNull().references('plots.id'))
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('broadcast_id', 'text', (c) => c.notNull().references('broadcasts.id'))
    .addColumn('visit', 'text')
    .addColumn('before', 'text')
    .addPrimaryKeyConstraint('appointments_pk', ['plot_id', 'kind'])
    .execute();
  await db.schema
    .createIndex('appointments_broadcast')
    .on('appointments')
    .columns(['broadcast_id', 'plot_id'])
    .execute();
}

/** A broadcast's texts may all begin at one instant: without the id, each lease would sort them all again. */
async function sendingOrder(db: Kysely<never>): Promise<void> {
  await db.schema.dropIndex('outbox_state').execute();
  const order = db.schema.createIndex('outbox_state').on('outbox');
  await order.columns(['state', 'not_before_ms', 'id']).execute();
}
