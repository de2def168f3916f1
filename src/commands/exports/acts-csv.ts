/** The table of what agents did: who, what and when. */
import { localIso } from '../../store/local-time.ts';
import type { Executor } from '../../store/ready-query.ts';
import type { Chosen } from './chosen.ts';
import { csvText } from './csv-text.ts';

const COLUMNS = ['done_at', 'agent', 'act', 'details'];

/** One row an act of the whole scheme, in order; instants by the scheme's clock. What came from a file has no agent. */
export async function actsCsv(db: Executor, { scheme }: Chosen): Promise<string> {
  const rows = await db
    .selectFrom('agent_acts')
    .leftJoin('people', 'people.id', 'agent_acts.person_id')
    .select(['agent_acts.done_ms', 'people.name', 'agent_acts.act', 'agent_acts.details'])
    .where('agent_acts.scheme_id', '=', scheme.world.id)
    .orderBy('agent_acts.done_ms')
    .orderBy('agent_acts.id')
    .execute();
  return csvText(
    COLUMNS,
    rows.map(({ done_ms, name, act, details }) => [localIso(done_ms, scheme.timeZone), name, act, details]),
  );
}
