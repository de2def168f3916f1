/** Takes a person's traces out: name, phones, words. What the group needs (that a plot was puddled) stays, nameless. */
import { forgetBroadcasts } from './broadcasts.ts';
import type { Executor } from './ready-query.ts';

/**
 * Forgets the person; a phone that nobody else uses is emptied too, but an opt-out of its number still holds.
 * The answer to the text `batch`, which asked for it, is kept for a second delivery of that text.
 */
export async function forgetPerson(db: Executor, personId: string, batch: string): Promise<void> {
  const links = await db
    .selectFrom('phone_people')
    .select('phone')
    .where('person_id', '=', personId)
    .execute();
  await closeSeasons(db, personId);
  await db.deleteFrom('phone_people').where('person_id', '=', personId).execute();
  await db.deleteFrom('phone_offers').where('person_id', '=', personId).execute();
  await db.deleteFrom('consents').where('person_id', '=', personId).execute();
  await db
    .updateTable('people')
    .set({ name: '', filed: '{}', forgotten: 1 })
    .where('id', '=', personId)
    .execute();
  for (const { phone } of links) {
    await forgetBroadcasts(db, personId, phone);
    await forgetPhone(db, phone, batch);
  }
}

async function closeSeasons(db: Executor, personId: string): Promise<void> {
  const plots = db.selectFrom('plots').select('id').where('owner_id', '=', personId);
  const seasons = db.selectFrom('seasons').select('id').where('plot_id', 'in', plots);
  await db.deleteFrom('reminders').where('season_id', 'in', seasons).execute();
  await db.updateTable('troubles').set({ words: '' }).where('season_id', 'in', seasons).execute();
  await db.updateTable('seasons').set({ open: 0 }).where('plot_id', 'in', plots).execute();
}

async function forgetPhone(db: Executor, phone: string, batch: string): Promise<void> {
  const shared = await db.selectFrom('phone_people').select('person_id').where('phone', '=', phone).execute();
  if (shared.length > 0) return;
  await db.updateTable('reports').set({ phone: null }).where('phone', '=', phone).execute();
  const texts = db.updateTable('texts_in').where('phone', '=', phone);
  await texts.set({ answer: null }).where('id', '!=', batch).execute();
  await texts.set({ phone: null, body: '' }).execute();
  await db.deleteFrom('outbox').where('phone', '=', phone).execute();
  await db.deleteFrom('cautions').where('phone', '=', phone).execute();
  await db.deleteFrom('ussd_sessions').where('phone', '=', phone).execute();
  await db.deleteFrom('phones').where('number', '=', phone).where('stopped', '=', 0).execute();
  await db
    .updateTable('phones')
    .set({
      turns: 0,
      lang: null,
      talk_version: null,
      talk_state: null,
      talk_expires_ms: null,
      vouched_ms: null,
    })
    .where('number', '=', phone)
    .execute();
}
