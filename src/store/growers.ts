/** Growers as an agent adds them: who uses a phone already, and which numbers their plots have. */
import { bareName } from '../scheme/person-name.ts';
import type { MakeId } from './ids.ts';
import { type Executor, readyQuery } from './ready-query.ts';

/** A grower to be added; the phone in E.164 form. */
export interface GrowerToAdd {
  readonly name: string;
  readonly lang: string;
  readonly phone: string;
}

const selectGrowers = readyQuery((db, at: { phone: string; schemeId: string }) =>
  db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .select(['people.id', 'people.name'])
    .where('phone_people.phone', '=', at.phone)
    .where('people.scheme_id', '=', at.schemeId)
    .where('people.role', '=', 'grower')
    .orderBy('people.id'),
);

/** The id of the grower of that name who uses the phone in the scheme; else of a new one, on the phone's new or old row. */
export async function growerOnPhone(
  db: Executor,
  schemeId: string,
  { name, lang, phone }: GrowerToAdd,
  makeId: MakeId,
): Promise<string> {
  const known = (await selectGrowers(db, { phone, schemeId })).find(
    (grower) => bareName(grower.name) === bareName(name),
  );
  if (known) return known.id;
  const person = { id: makeId(), scheme_id: schemeId, name, lang };
  await db
    .insertInto('people')
    .values({ ...person, role: 'grower', filed: null, forgotten: 0, blocks: null })
    .execute();
  await db
    .insertInto('phones')
    .values({ number: phone, turns: 0, stopped: 0 })
    .onConflict((on) => on.column('number').doNothing())
    .execute();
  await db.insertInto('phone_people').values({ phone, person_id: person.id, place: 0 }).execute();
  return person.id;
}

const selectNumbers = readyQuery((db, at: { personId: string }) =>
  db
    .selectFrom('phone_people as own')
    .innerJoin('phone_people as shared', 'shared.phone', 'own.phone')
    .innerJoin('plots', 'plots.owner_id', 'shared.person_id')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select(['plots.id', 'plots.number'])
    .where('own.person_id', '=', at.personId)
    .where('seasons.open', '=', 1),
);

/** Numbers of the open plots of everyone who shares a phone with the grower, but for one plot that is not counted. */
export async function numbersOfGrower(
  db: Executor,
  personId: string,
  exceptPlotId?: string,
): Promise<Set<string>> {
  const rows = await selectNumbers(db, { personId });
  return new Set(rows.filter(({ id }) => id !== exceptPlotId).map(({ number }) => number));
}
