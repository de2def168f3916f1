/** Codes that tie a second phone to a grower: one open code a person, used once. Phones that are tied, and numbers that are let go. */
import type { Effect } from '../talk/effect.ts';
import type { PhoneOffer } from '../talk/world.ts';
import { type Executor, readyQuery } from './ready-query.ts';

const selectOpen = readyQuery((db, at: { code: string; nowMs: number }) =>
  db
    .selectFrom('phone_offers')
    .innerJoin('people', 'people.id', 'phone_offers.person_id')
    .select(['phone_offers.id', 'phone_offers.person_id', 'phone_offers.phone'])
    .select(['people.name', 'people.lang'])
    .where('phone_offers.code', '=', at.code)
    .where('phone_offers.until_ms', '>', at.nowMs)
    .where('people.forgotten', '=', 0),
);

/** Whether an open offer has this code. */
export async function isOffered(db: Executor, code: string, nowMs: number): Promise<boolean> {
  return (await selectOpen(db, { code, nowMs })).length > 0;
}

/** The open offer of this code; null when there is none. */
export async function findOffer(db: Executor, code: string, nowMs: number): Promise<PhoneOffer | null> {
  const [row] = await selectOpen(db, { code, nowMs });
  if (row === undefined) return null;
  const plots = db.selectFrom('plots').innerJoin('seasons', 'seasons.plot_id', 'plots.id');
  const numbers = await plots
    .select('plots.number')
    .where('plots.owner_id', '=', row.person_id)
    .where('seasons.open', '=', 1)
    .execute();
  const { id, person_id: personId, phone, name, lang } = row;
  return { id, personId, phone, name, lang, numbers: numbers.map(({ number }) => number) };
}

/** Keeps the offer in place of the person's older one. */
export async function keepOffer(
  db: Executor,
  id: string,
  { personId, code, untilMs }: Effect & { do: 'offer-phone' },
  phone: string,
): Promise<void> {
  await db.deleteFrom('phone_offers').where('person_id', '=', personId).execute();
  const row = { id, code, person_id: personId, phone, until_ms: untilMs };
  await db.insertInto('phone_offers').values(row).execute();
}

/** Other phones of the people who use this one, by person, the first one first. */
export async function otherPhones(
  db: Executor,
  phone: string,
): Promise<Readonly<Record<string, readonly string[]>>> {
  const rows = await db
    .selectFrom('phone_people as own')
    .innerJoin('phone_people as other', 'other.person_id', 'own.person_id')
    .select(['other.person_id', 'other.phone'])
    .where('own.phone', '=', phone)
    .where('other.phone', '!=', phone)
    .orderBy('other.place')
    .orderBy('other.phone')
    .execute();
  const phonesOf = (id: string) => rows.filter((row) => row.person_id === id).map((row) => row.phone);
  return Object.fromEntries(rows.map(({ person_id: id }) => [id, phonesOf(id)]));
}

/** Ties the phone to the person, behind those that he or she has; the offer is used up. The phone has a row. */
export async function linkPhone(
  db: Executor,
  offerId: string,
  personId: string,
  phone: string,
): Promise<void> {
  const last = db.selectFrom('phone_people').select((eb) => eb.fn.max('place').as('place'));
  const { place } = (await last.where('person_id', '=', personId).executeTakeFirst()) ?? { place: null };
  await db
    .insertInto('phone_people')
    .values({ phone, person_id: personId, place: (place ?? -1) + 1 })
    .execute();
  await db.deleteFrom('phone_offers').where('id', '=', offerId).execute();
}

/** Takes one phone away from the person; what waits for it and concerns nobody else there is not sent. */
export async function unlinkPhone(db: Executor, personId: string, phone: string): Promise<void> {
  const link = db.deleteFrom('phone_people').where('person_id', '=', personId);
  await link.where('phone', '=', phone).execute();
  await dropQueued(db, phone);
}

/** Lets the number go: its people have it no more, and it begins anew, with nothing of before. An opt-out still holds. */
export async function releasePhone(db: Executor, phone: string): Promise<void> {
  await db.deleteFrom('phone_people').where('phone', '=', phone).execute();
  await db.deleteFrom('phone_offers').where('phone', '=', phone).execute();
  await db.deleteFrom('cautions').where('phone', '=', phone).execute();
  await db.deleteFrom('ussd_sessions').where('phone', '=', phone).execute();
  await dropQueued(db, phone);
  await db.updateTable('phones').set({ vouched_ms: null }).where('number', '=', phone).execute();
}

/** Deletes texts that wait for a phone which nobody uses any more. */
export async function dropQueued(db: Executor, phone: string): Promise<void> {
  const users = db.selectFrom('phone_people').select('person_id').where('phone', '=', phone);
  if ((await users.execute()).length > 0) return;
  await db.deleteFrom('outbox').where('phone', '=', phone).where('state', '=', 'queued').execute();
}
