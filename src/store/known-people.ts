/** Reads what a scheme knows of its people and plots, as a file of people is checked against. */
import type { KnownGrower, KnownPeople } from '../scheme/people-known.ts';
import type { SchemeEntry } from './load-schemes.ts';
import type { Executor } from './ready-query.ts';

/** Days of the variety where the scheme has no plot yet. */
const USUAL_VARIETY_DAYS = 120;

/** The scheme's blocks and languages, its growers with their phones, and its plots with an open season. */
export async function knownPeople(db: Executor, { world }: SchemeEntry): Promise<KnownPeople> {
  const links = await db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .select(['people.id', 'people.name', 'people.role', 'phone_people.phone'])
    .where('people.scheme_id', '=', world.id)
    .orderBy('people.id')
    .orderBy('phone_people.place')
    .execute();
  const plots = await db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select(['plots.number', 'plots.label', 'plots.owner_id', 'plots.block_id', 'plots.area_ha'])
    .select('seasons.variety_days')
    .where('plots.scheme_id', '=', world.id)
    .where('seasons.open', '=', 1)
    .orderBy('plots.id')
    .execute();
  const phonesOf = new Map<string, string[]>();
  for (const { id, phone } of links) phonesOf.set(id, [...(phonesOf.get(id) ?? []), phone]);
  const growers = new Map(
    links
      .filter(({ role }) => role === 'grower')
      .map(({ id, name }): [string, KnownGrower] => [id, { id, name, phones: phonesOf.get(id) ?? [] }]),
  );
  return {
    blocks: world.blocks.map((block) => ({ ...block, fileId: block.id.slice(world.id.length + 1) })),
    languages: world.languages,
    ...(world.areaUnit && { areaUnit: world.areaUnit }),
    varietyDays: mostCommon(plots.map((plot) => plot.variety_days)) ?? USUAL_VARIETY_DAYS,
    growers: [...growers.values()],
    phonesOf,
    plots: plots.map(({ number, label, owner_id, block_id, area_ha }) => ({
      ...{ number, label, ownerId: owner_id, blockId: block_id, areaHa: area_ha },
    })),
  };
}

/** Of several that are equally common, the lowest; null for none. */
function mostCommon(values: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort(([a, m], [b, n]) => n - m || a - b)[0]?.[0] ?? null;
}
