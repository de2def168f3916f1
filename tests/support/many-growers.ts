/** Growers by the thousand, put beside a test scheme's own with statements that count by themselves. */
import { sql } from 'kysely';
import type { Db } from '../../src/store/open.ts';

/** "+4477009" and seven digits, in the order of their number. */
export const manyPhone = (index: number) => `+4477009${String(index).padStart(7, '0')}`;

/** The block that they grow in. */
export const MANY_BLOCK = 'test-valley/many';

/** Plants growers 0 to `count` - 1, each with a phone, a plot and an open season in a block of their own. */
export async function plantMany(db: Db, count: number): Promise<void> {
  const numbers = sql`with recursive n(i) as (select 0 union all select i + 1 from n where i < ${count - 1})`;
  const [id, phone] = [sql`'m' || substr('0000000' || i, -7)`, sql`'+4477009' || substr('0000000' || i, -7)`];
  await db.transaction().execute(async (trx) => {
    await sql`insert into blocks (id, scheme_id, name, place) values (${MANY_BLOCK}, 'test-valley', 'Many', 1)`.execute(
      trx,
    );
    await sql`insert into people (id, scheme_id, name, lang, role, forgotten)
      ${numbers} select ${id}, 'test-valley', 'Grower ' || i, 'en', 'grower', 0 from n`.execute(trx);
    await sql`insert into phones (number, turns, stopped) ${numbers} select ${phone}, 0, 0 from n`.execute(
      trx,
    );
    await sql`insert into phone_people (phone, person_id, place) ${numbers} select ${phone}, ${id}, 0 from n`.execute(
      trx,
    );
    await sql`insert into plots (id, scheme_id, number, owner_id, block_id, area_ha, place)
      ${numbers} select ${id}, 'test-valley', '1', ${id}, ${MANY_BLOCK}, 0.3, i from n`.execute(trx);
    await sql`insert into seasons (id, plot_id, open, way, variety_days, choices)
      ${numbers} select ${id}, ${id}, 1, '{}', 120, '{}' from n`.execute(trx);
  });
}
