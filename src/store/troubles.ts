/** Troubles that growers texted, for the agent's list. */
import type { Effect } from '../talk/effect.ts';
import type { Executor } from './ready-query.ts';
import type { Bringer } from './reports.ts';
import { dateColumn } from './span-columns.ts';

/** Adds one trouble. */
export async function noteTrouble(
  db: Executor,
  id: string,
  trouble: Extract<Effect, { do: 'note-trouble' }>,
  by: Bringer,
): Promise<void> {
  await db
    .insertInto('troubles')
    .values({
      id,
      season_id: trouble.seasonId,
      batch: by.batch,
      what: trouble.what,
      until_on: dateColumn(trouble.until),
      words: trouble.words,
      said_ms: by.nowMs,
    })
    .execute();
}
