/** The table of plots, also of those that were removed. */
import type { Way } from '../../agronomy/season.ts';
import type { Executor } from '../../store/ready-query.ts';
import type { Chosen } from './chosen.ts';
import { csvText } from './csv-text.ts';

const WAY_FIELDS = ['water', 'tillage', 'establishment', 'nursery', 'ripens'] as const;

/** One row a plot, by block and place; phone numbers, first that of the reminders, only when they are asked for. */
export async function plotsCsv(
  db: Executor,
  { scheme, blocks }: Chosen,
  { phones }: { readonly phones: boolean },
): Promise<string> {
  const phonesOf = phones ? await phonesByOwner(db, scheme.world.id) : new Map<string, string[]>();
  const rows = await selectRows(db, scheme.world.id);
  const columns = [
    ...['label', 'number', 'grower', ...(phones ? ['phone'] : []), 'language', 'block', 'area_ha'],
    ...['variety_days', ...WAY_FIELDS, 'open'],
  ];
  const fields = blocks.flatMap((block) =>
    rows
      .filter(({ block_id }) => block_id === block.id)
      .map((row) => {
        const way = JSON.parse(row.way) as Way;
        return [
          ...[row.label, row.number, row.name],
          ...(phones ? [(phonesOf.get(row.owner_id) ?? []).join(' ')] : []),
          ...[row.lang, block.name, row.area_ha, row.variety_days],
          ...WAY_FIELDS.map((field) => way[field]),
          row.open === 1 ? 'yes' : 'no',
        ];
      }),
  );
  return csvText(columns, fields);
}

const selectRows = (db: Executor, schemeId: string) =>
  db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .innerJoin('people', 'people.id', 'plots.owner_id')
    .select(['plots.label', 'plots.number', 'plots.block_id', 'plots.area_ha', 'plots.owner_id'])
    .select(['people.name', 'people.lang', 'seasons.way', 'seasons.variety_days', 'seasons.open'])
    .where('plots.scheme_id', '=', schemeId)
    .orderBy('plots.place')
    .orderBy('plots.id')
    .orderBy('seasons.id')
    .execute();

async function phonesByOwner(db: Executor, schemeId: string): Promise<Map<string, string[]>> {
  const links = await db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .select(['phone_people.phone', 'phone_people.person_id'])
    .where('people.scheme_id', '=', schemeId)
    .orderBy('phone_people.place')
    .orderBy('phone_people.phone')
    .execute();
  const phones = new Map<string, string[]>();
  for (const { phone, person_id } of links) phones.set(person_id, [...(phones.get(person_id) ?? []), phone]);
  return phones;
}
