/** Tables of the first release: the scheme, its people and plots, what they texted, and what is to be texted to them. */
import type { Kysely } from 'kysely';

/** Applies the migration. Fails when one of its tables exists. */
export async function up(db: Kysely<never>): Promise<void> {
  await schemeTables(db);
  await peopleTables(db);
  await plotTables(db);
  await inboundTables(db);
  await reportTables(db);
  await outboundTables(db);
  await phoneTables(db);
}

async function schemeTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('schemes')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('code', 'text', (c) => c.notNull().unique())
    .addColumn('time_zone', 'text', (c) => c.notNull())
    .addColumn('country', 'text', (c) => c.notNull())
    .addColumn('settings', 'text', (c) => c.notNull())
    .addColumn('digest', 'text', (c) => c.notNull())
    .addColumn('loaded_on', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('blocks')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('scheme_id', 'text', (c) => c.notNull().references('schemes.id'))
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('place', 'integer', (c) => c.notNull())
    .addColumn('water_from', 'text')
    .addColumn('water_to', 'text')
    .addColumn('target_from', 'text')
    .addColumn('target_to', 'text')
    .addColumn('rain_from', 'text')
    .addColumn('way', 'text')
    .execute();
}

async function peopleTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('people')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('scheme_id', 'text', (c) => c.notNull().references('schemes.id'))
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('lang', 'text', (c) => c.notNull())
    .addColumn('role', 'text', (c) => c.notNull())
    .addColumn('filed', 'text')
    .addColumn('forgotten', 'integer', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('phones')
    .addColumn('number', 'text', (c) => c.primaryKey())
    .addColumn('turns', 'integer', (c) => c.notNull())
    .addColumn('lang', 'text')
    .addColumn('talk_version', 'integer')
    .addColumn('talk_state', 'text')
    .addColumn('talk_expires_ms', 'bigint')
    .addColumn('stopped', 'integer', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('phone_people')
    .addColumn('phone', 'text', (c) => c.notNull().references('phones.number'))
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('place', 'integer', (c) => c.notNull())
    .addPrimaryKeyConstraint('phone_people_pk', ['phone', 'person_id'])
    .execute();
  await db.schema.createIndex('phone_people_person').on('phone_people').columns(['person_id']).execute();
}

async function plotTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('plots')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('scheme_id', 'text', (c) => c.notNull().references('schemes.id'))
    .addColumn('number', 'text', (c) => c.notNull())
    .addColumn('label', 'text')
    .addColumn('owner_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('block_id', 'text', (c) => c.notNull().references('blocks.id'))
    .addColumn('area_ha', 'double precision', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('plots_owner').on('plots').columns(['owner_id']).execute();
  await db.schema
    .createTable('seasons')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('plot_id', 'text', (c) => c.notNull().references('plots.id'))
    .addColumn('open', 'integer', (c) => c.notNull())
    .addColumn('way', 'text', (c) => c.notNull())
    .addColumn('variety_days', 'integer', (c) => c.notNull())
    .addColumn('choices', 'text', (c) => c.notNull())
    .addColumn('teams', 'text')
    .addColumn('basal_advised', 'integer')
    .addColumn('filed', 'text')
    .execute();
  await db.schema.createIndex('seasons_plot').on('seasons').columns(['plot_id']).execute();
}

async function inboundTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('texts_in')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('carrier_id', 'text', (c) => c.notNull().unique())
    .addColumn('phone', 'text', (c) => c.references('phones.number'))
    .addColumn('turn', 'integer', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .addColumn('received_ms', 'bigint', (c) => c.notNull())
    .addColumn('answer', 'text')
    .addColumn('faulty', 'integer', (c) => c.notNull())
    .addUniqueConstraint('texts_in_turn', ['phone', 'turn'])
    .execute();
}

async function reportTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('reports')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('season_id', 'text', (c) => c.notNull().references('seasons.id'))
    .addColumn('batch', 'text', (c) => c.notNull().references('texts_in.id'))
    .addColumn('phone', 'text', (c) => c.references('phones.number'))
    .addColumn('turn', 'integer', (c) => c.notNull())
    .addColumn('activity', 'text', (c) => c.notNull())
    .addColumn('stage', 'text', (c) => c.notNull())
    .addColumn('done_on', 'text')
    .addColumn('measures', 'text', (c) => c.notNull())
    .addColumn('corrects', 'text', (c) => c.references('reports.id'))
    .addColumn('said_ms', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('reports_season').on('reports').columns(['season_id']).execute();
  await db.schema.createIndex('reports_phone').on('reports').columns(['phone']).execute();
  await db.schema
    .createTable('undos')
    .addColumn('report_id', 'text', (c) => c.primaryKey().references('reports.id'))
    .addColumn('by_batch', 'text', (c) => c.notNull().references('texts_in.id'))
    .addColumn('said_ms', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('troubles')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('season_id', 'text', (c) => c.notNull().references('seasons.id'))
    .addColumn('batch', 'text', (c) => c.notNull().references('texts_in.id'))
    .addColumn('what', 'text', (c) => c.notNull())
    .addColumn('until_on', 'text')
    .addColumn('words', 'text', (c) => c.notNull())
    .addColumn('said_ms', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('troubles_season').on('troubles').columns(['season_id']).execute();
}

async function outboundTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('reminders')
    .addColumn('scheme_id', 'text', (c) => c.notNull().references('schemes.id'))
    .addColumn('season_id', 'text', (c) => c.notNull().references('seasons.id'))
    .addColumn('activity', 'text', (c) => c.notNull())
    .addColumn('why', 'text', (c) => c.notNull())
    .addColumn('due_on', 'text', (c) => c.notNull())
    .addColumn('look_on', 'text', (c) => c.notNull())
    .addColumn('sent', 'integer', (c) => c.notNull())
    .addPrimaryKeyConstraint('reminders_pk', ['season_id', 'activity', 'why', 'due_on'])
    .execute();
  const due = db.schema.createIndex('reminders_due').on('reminders');
  await due.columns(['scheme_id', 'sent', 'look_on']).execute();
  await db.schema
    .createTable('outbox')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('key', 'text', (c) => c.notNull().unique())
    .addColumn('phone', 'text', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('state', 'text', (c) => c.notNull())
    .addColumn('created_ms', 'bigint', (c) => c.notNull())
    .addColumn('not_before_ms', 'bigint', (c) => c.notNull())
    .addColumn('expires_ms', 'bigint', (c) => c.notNull())
    .addColumn('lease_until_ms', 'bigint', (c) => c.notNull())
    .addColumn('attempts', 'integer', (c) => c.notNull())
    .addColumn('carrier_id', 'text')
    .addColumn('settled_ms', 'bigint')
    .addColumn('why', 'text')
    .execute();
  await db.schema.createIndex('outbox_state').on('outbox').columns(['state', 'not_before_ms']).execute();
  await db.schema.createIndex('outbox_phone').on('outbox').columns(['phone', 'state']).execute();
  await db.schema.createIndex('outbox_carrier').on('outbox').columns(['carrier_id']).execute();
}

async function phoneTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('consents')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('phone', 'text', (c) => c.notNull())
    .addColumn('person_id', 'text')
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('words', 'text', (c) => c.notNull())
    .addColumn('lang', 'text')
    .addColumn('said_ms', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('consents_phone').on('consents').columns(['phone']).execute();
  await db.schema.createIndex('consents_person').on('consents').columns(['person_id']).execute();
  await db.schema
    .createTable('cautions')
    .addColumn('phone', 'text', (c) => c.notNull())
    .addColumn('activity', 'text', (c) => c.notNull())
    .addColumn('given_ms', 'bigint', (c) => c.notNull())
    .addPrimaryKeyConstraint('cautions_pk', ['phone', 'activity'])
    .execute();
}
