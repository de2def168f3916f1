/** What agents did: who, what and when. */
import type { Effect } from '../talk/effect.ts';
import type { Executor } from './ready-query.ts';
import type { Bringer } from './reports.ts';

/** Adds one act of an agent's text. */
export async function noteAct(
  db: Executor,
  id: string,
  { personId, act, details }: Extract<Effect, { do: 'note-act' }>,
  by: Bringer & { readonly schemeId: string },
): Promise<void> {
  await db
    .insertInto('agent_acts')
    .values({
      id,
      scheme_id: by.schemeId,
      person_id: personId,
      batch: by.batch,
      act,
      details,
      done_ms: by.nowMs,
    })
    .execute();
}

/** Adds one act that was done from a file at the machine: nobody's, and of no text. */
export async function noteFileAct(
  db: Executor,
  id: string,
  what: { readonly schemeId: string; readonly act: string; readonly details: string; readonly nowMs: number },
): Promise<void> {
  const { schemeId, act, details, nowMs } = what;
  await db
    .insertInto('agent_acts')
    .values({ id, scheme_id: schemeId, person_id: null, batch: null, act, details, done_ms: nowMs })
    .execute();
}
