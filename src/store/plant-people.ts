/** Writes a scheme's people and the phones they use. */
import { changedFields } from './filed-fields.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { PersonSeed, SchemeSeed } from './scheme-seed.ts';
import { storedId } from './stored-id.ts';
import type { PeopleTable } from './tables.ts';

const insertPerson = readyQuery((db, row: PeopleTable) =>
  db.insertInto('people').values({
    id: row.id,
    scheme_id: row.scheme_id,
    name: row.name,
    lang: row.lang,
    role: row.role,
    filed: row.filed,
    forgotten: row.forgotten,
    blocks: row.blocks,
  }),
);

const insertPhone = readyQuery((db, row: { number: string }) =>
  db
    .insertInto('phones')
    .values({ number: row.number, turns: 0, stopped: 0 })
    .onConflict((on) => on.column('number').doNothing()),
);

const insertLink = readyQuery((db, row: { phone: string; personId: string; place: number }) =>
  db
    .insertInto('phone_people')
    .values({ phone: row.phone, person_id: row.personId, place: row.place })
    .onConflict((on) =>
      on.columns(['phone', 'person_id']).doUpdateSet((eb) => ({ place: eb.ref('excluded.place') })),
    ),
);

const deleteLinks = readyQuery((db, row: { personId: string }) =>
  db.deleteFrom('phone_people').where('person_id', '=', row.personId),
);

/** Adds new people, updates what the file changed, and never brings back someone who asked to be forgotten. */
export async function plantPeople(db: Executor, seed: SchemeSeed): Promise<void> {
  const known = await knownPeople(db, seed.id);
  for (const person of seed.people) {
    const id = storedId(seed.id, person.id);
    const before = known.get(id);
    if (before?.forgotten === 1) continue;
    const filed = filedOf(seed.id, person);
    if (before === undefined) await addPerson(db, seed.id, person, JSON.stringify(filed));
    else await updatePerson(db, id, changedFields(before.filed, filed), JSON.stringify(filed));
  }
}

/** What the file says of a person; blocks as the column has them, and not at all for people without. */
function filedOf(schemeId: string, { name, lang, role, phones, blocks }: PersonSeed) {
  return { name, lang, role, phones, ...(blocks && { blocks: blocksColumn(schemeId, blocks) }) };
}

const blocksColumn = (schemeId: string, blocks: readonly string[]) =>
  JSON.stringify(blocks.map((block) => storedId(schemeId, block)));

async function knownPeople(db: Executor, schemeId: string) {
  const rows = await db
    .selectFrom('people')
    .select(['id', 'filed', 'forgotten'])
    .where('scheme_id', '=', schemeId)
    .where('filed', 'is not', null)
    .execute();
  return new Map(rows.map((row) => [row.id, row]));
}

async function addPerson(db: Executor, schemeId: string, person: PersonSeed, filed: string): Promise<void> {
  const id = storedId(schemeId, person.id);
  const { name, lang, role } = person;
  const blocks = person.blocks ? blocksColumn(schemeId, person.blocks) : null;
  await insertPerson(db, { id, scheme_id: schemeId, name, lang, role, filed, forgotten: 0, blocks });
  await linkPhones(db, id, person.phones);
}

async function updatePerson(
  db: Executor,
  id: string,
  { phones, ...columns }: Partial<ReturnType<typeof filedOf>>,
  filed: string,
): Promise<void> {
  await db
    .updateTable('people')
    .set({ ...columns, filed })
    .where('id', '=', id)
    .execute();
  if (phones === undefined || (await isRemoved(db, id))) return;
  await deleteLinks(db, { personId: id });
  await linkPhones(db, id, phones);
}

/** Whoever is in the file has a phone there: one without any was removed since, and does not come back with another phone. */
async function isRemoved(db: Executor, personId: string): Promise<boolean> {
  const links = db.selectFrom('phone_people').select('phone').where('person_id', '=', personId);
  return (await links.executeTakeFirst()) === undefined;
}

async function linkPhones(db: Executor, personId: string, phones: readonly string[]): Promise<void> {
  for (const [place, phone] of phones.entries()) {
    await insertPhone(db, { number: phone });
    await insertLink(db, { phone, personId, place });
  }
}
