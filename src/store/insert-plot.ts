/** Adds a plot as it stands, without a season. */
import { readyQuery } from './ready-query.ts';
import type { PlotsTable } from './tables.ts';

/** Throws when a plot of this id is there. */
export const insertPlot = readyQuery((db, row: PlotsTable) =>
  db.insertInto('plots').values({
    id: row.id,
    scheme_id: row.scheme_id,
    number: row.number,
    label: row.label,
    owner_id: row.owner_id,
    block_id: row.block_id,
    area_ha: row.area_ha,
    place: row.place,
  }),
);
