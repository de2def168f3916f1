/** Broadcasts: kept with the text that asked for them, queued piece by piece afterwards, then told of. */
import type { Broadcast, BroadcastHead } from '../talk/broadcast.ts';
import { keepAppointments } from './appointments.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { Bringer } from './reports.ts';
import type { BroadcastsTable } from './tables.ts';

/** A broadcast as kept. */
export interface KeptBroadcast {
  readonly id: string;
  readonly schemeId: string;
  /** The agent's; empty once the agent was forgotten. */
  readonly phone: string;
  readonly head: BroadcastHead;
  readonly state: BroadcastsTable['state'];
  readonly nextAfter: string;
}

const selectOne = readyQuery((db, at: { id: string }) =>
  db.selectFrom('broadcasts').selectAll().where('id', '=', at.id),
);

const selectIn = readyQuery((db, at: { state: BroadcastsTable['state'] }) =>
  db.selectFrom('broadcasts').select('id').where('state', '=', at.state).orderBy('created_ms').orderBy('id'),
);

const setNext = readyQuery((db, at: { id: string; nextAfter: string }) =>
  db.updateTable('broadcasts').set({ next_after: at.nextAfter }).where('id', '=', at.id),
);

/** Keeps a broadcast to be queued, and the appointments that it makes; run it in the transaction of its text. */
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
  if (head.kind !== 'words') await keepAppointments(db, id, head.kind, appointments);
}

/** Ids of the broadcasts in this state, oldest first. */
export async function broadcastsIn(
  db: Executor,
  state: BroadcastsTable['state'],
): Promise<readonly string[]> {
  return (await selectIn(db, { state })).map(({ id }) => id);
}

/** The broadcast, or null when there is none of this id. */
export async function findBroadcast(db: Executor, id: string): Promise<KeptBroadcast | null> {
  const [row] = await selectOne(db, { id });
  if (row === undefined) return null;
  const head = JSON.parse(row.head) as BroadcastHead;
  const { scheme_id: schemeId, phone, state, next_after: nextAfter } = row;
  return { id, schemeId, phone, head, state, nextAfter };
}

/** Notes how far the queuing has come. */
export async function moveQueuing(db: Executor, id: string, nextAfter: string): Promise<void> {
  await setNext(db, { id, nextAfter });
}

/** Notes that the last text is queued. */
export async function endQueuing(db: Executor, id: string, nowMs: number): Promise<void> {
  const sending = { state: 'sending', queued_ms: nowMs } as const;
  await db.updateTable('broadcasts').set(sending).where('id', '=', id).execute();
}

/** Notes that its agent was told, or will never be; an agent who was forgotten meanwhile leaves no words behind. */
export async function markTold(db: Executor, { id, phone, head }: KeptBroadcast): Promise<void> {
  const told = { state: 'told', ...(phone === '' && { head: wordless(head) }) } as const;
  await db.updateTable('broadcasts').set(told).where('id', '=', id).execute();
}

/** Takes the agent's number out of his or her broadcasts from this phone, and name and words where all is told. */
export async function forgetBroadcasts(db: Executor, personId: string, phone: string): Promise<void> {
  const rows = await db
    .selectFrom('broadcasts')
    .select(['id', 'head', 'state'])
    .where('phone', '=', phone)
    .execute();
  for (const { id, head: json, state } of rows) {
    const head = JSON.parse(json) as BroadcastHead;
    if (head.agentId !== personId) continue;
    const nameless = { phone: '', ...(state === 'told' && { head: wordless(head) }) };
    await db.updateTable('broadcasts').set(nameless).where('id', '=', id).execute();
  }
}

function wordless(head: BroadcastHead): string {
  return JSON.stringify({ ...head, agentName: '', ...(head.kind === 'words' && { words: '' }) });
}
