/** Whom a broadcast of appointments has to tell, and of which plots. */
import type { AppointmentKind } from '../scheme/group/appointment.ts';
import type { Recipient } from '../talk/broadcast.ts';
import { visitOf } from './appointments.ts';
import { byNumber } from './plots.ts';
import { type Executor, readyQuery } from './ready-query.ts';

const selectOwners = readyQuery((db, at: { id: string; after: string; most: number }) =>
  db
    .selectFrom('appointments')
    .innerJoin('plots', 'plots.id', 'appointments.plot_id')
    .select('plots.owner_id')
    .distinct()
    .where('appointments.broadcast_id', '=', at.id)
    .where('plots.owner_id', '>', at.after)
    .orderBy('plots.owner_id')
    .limit(at.most),
);

/** Owners of plots with an appointment of this broadcast, by id, from the one after `after` on. */
export async function ownersAfter(
  db: Executor,
  id: string,
  after: string,
  most: number,
): Promise<readonly string[]> {
  return (await selectOwners(db, { id, after, most })).map((row) => row.owner_id);
}

/** An owner and what a broadcast changed for him or her. */
export interface Appointed extends Recipient {
  readonly personId: string;
}

/** What this broadcast changed for these people, in their order; nothing of those who were forgotten. */
export async function appointedOf(
  db: Executor,
  id: string,
  kind: AppointmentKind,
  people: readonly string[],
): Promise<readonly Appointed[]> {
  if (people.length === 0) return [];
  const rows = await db
    .selectFrom('people')
    .innerJoin('plots', 'plots.owner_id', 'people.id')
    .innerJoin('appointments', 'appointments.plot_id', 'plots.id')
    .select(['people.id', 'people.name', 'people.lang', 'plots.number'])
    .select(['appointments.visit', 'appointments.before'])
    .where('people.id', 'in', people)
    .where('people.forgotten', '=', 0)
    .where('appointments.kind', '=', kind)
    // Read through a function, it keeps the query at these people, and off all that the broadcast concerns.
    .where((eb) => eb(eb.fn.coalesce('appointments.broadcast_id', eb.val('')), '=', id))
    .execute();
  const byPerson = new Map<string, typeof rows>();
  for (const row of rows) byPerson.set(row.id, [...(byPerson.get(row.id) ?? []), row]);
  return people.flatMap((personId): Appointed[] => {
    const own = byPerson.get(personId) ?? [];
    const [first] = own;
    if (first === undefined) return [];
    const plots = own
      .toSorted((a, b) => byNumber(a.number, b.number))
      .map(({ number, visit, before }) => ({ number, visit: visitOf(visit), before: visitOf(before) }));
    return [{ personId, name: first.name, lang: first.lang, plots }];
  });
}
