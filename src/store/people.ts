/** Growers and agents, and which of them use a phone. */
import type { Person } from '../talk/world.ts';
import { type Executor, readyQuery } from './ready-query.ts';

const selectPeople = readyQuery((db, at: { phone: string }) =>
  db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .select(['people.id', 'people.name', 'people.lang', 'people.role', 'people.scheme_id'])
    .where('phone_people.phone', '=', at.phone)
    .orderBy('people.id'),
);

const selectReminded = readyQuery((db, at: { personId: string }) =>
  db
    .selectFrom('phone_people')
    .innerJoin('phones', 'phones.number', 'phone_people.phone')
    .select('phone_people.phone')
    .where('phone_people.person_id', '=', at.personId)
    .where('phones.stopped', '=', 0)
    .orderBy('phone_people.place')
    .orderBy('phone_people.phone')
    .limit(1),
);

/** The person's first phone that takes texts; null when there is none. */
export async function phoneToRemind(db: Executor, personId: string): Promise<string | null> {
  return (await selectReminded(db, { personId }))[0]?.phone ?? null;
}

const selectFirst = readyQuery((db, at: { personId: string }) =>
  db
    .selectFrom('phone_people')
    .select('phone')
    .where('person_id', '=', at.personId)
    .orderBy('place')
    .orderBy('phone')
    .limit(1),
);

/** The person's first phone, whether it takes texts or not; null when there is none. */
export async function firstPhone(db: Executor, personId: string): Promise<string | null> {
  return (await selectFirst(db, { personId }))[0]?.phone ?? null;
}

/** Everyone who uses the phone, with the scheme each belongs to. */
export async function peopleOfPhone(
  db: Executor,
  phone: string,
): Promise<readonly (Person & { readonly schemeId: string })[]> {
  const rows = await selectPeople(db, { phone });
  return rows.map(({ scheme_id, ...person }) => ({ ...person, schemeId: scheme_id }));
}

/** The person's language; null for someone who is unknown or was forgotten. */
export async function languageOf(db: Executor, personId: string): Promise<string | null> {
  const person = db.selectFrom('people').select('lang').where('id', '=', personId);
  return (await person.where('forgotten', '=', 0).executeTakeFirst())?.lang ?? null;
}

/** Gives the person another name. */
export async function renamePerson(db: Executor, personId: string, name: string): Promise<void> {
  await db.updateTable('people').set({ name }).where('id', '=', personId).execute();
}

/** Gives the person another language. */
export async function setLanguage(db: Executor, personId: string, lang: string): Promise<void> {
  await db.updateTable('people').set({ lang }).where('id', '=', personId).execute();
}

const selectAgents = readyQuery((db, at: { schemeId: string }) =>
  db
    .selectFrom('people')
    .innerJoin('phone_people', 'phone_people.person_id', 'people.id')
    .innerJoin('phones', 'phones.number', 'phone_people.phone')
    .select('phone_people.phone')
    .distinct()
    .where('people.scheme_id', '=', at.schemeId)
    .where('people.role', '=', 'agent')
    .where('people.forgotten', '=', 0)
    .where('phone_people.place', '=', 0)
    .where('phones.stopped', '=', 0)
    .orderBy('phone_people.phone'),
);

/** The first phones of the scheme's agents, as far as they take texts. */
export async function agentPhones(db: Executor, schemeId: string): Promise<readonly string[]> {
  return (await selectAgents(db, { schemeId })).map(({ phone }) => phone);
}
