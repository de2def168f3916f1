/** Broadcasts of the test valley's agent, and what became of them. */
import { keepBroadcast } from '../../src/store/broadcasts.ts';
import type { Db } from '../../src/store/open.ts';
import type { Broadcast } from '../../src/talk/broadcast.ts';
import { NOON_MS } from './test-line.ts';

export const EVE = '+447700900990';

const HEAD = {
  agentId: 'test-valley/eve',
  agentName: 'Eve',
  blockIds: ['test-valley/upper'],
  blockNames: ['Upper'],
};

/** The agent's words to these blocks, the valley's own when none are named. */
export function wordsOf(words: string, ...blockIds: readonly string[]): Broadcast {
  return { ...HEAD, kind: 'words', words, ...(blockIds.length > 0 && { blockIds }) };
}

/** Water from an hour of a day on, for two hours; null takes a plot's turn away. Plots by their ids in the file. */
export function waterOf(
  turns: Readonly<Record<string, readonly [day: number, hour: number] | null>>,
): Broadcast {
  const appointments = Object.entries(turns).map(([plot, at]) => ({
    plotId: `test-valley/${plot}`,
    visit: at === null ? null : { start: { day: at[0], hour: at[1] }, end: { day: at[0], hour: at[1] + 2 } },
  }));
  return { ...HEAD, kind: 'water', appointments };
}

/** Keeps the broadcast as the agent's text would. */
export async function sendBroadcast(
  db: Db,
  id: string,
  broadcast: Broadcast,
  nowMs = NOON_MS,
): Promise<void> {
  const by = { schemeId: 'test-valley', batch: 'none', phone: EVE, turn: 1, nowMs };
  await db.transaction().execute((trx) => keepBroadcast(trx, id, broadcast, by));
}

/** State of the broadcast. */
export async function stateOf(db: Db, id: string) {
  const row = db.selectFrom('broadcasts').select(['state', 'queued_ms']).where('id', '=', id);
  return await row.executeTakeFirstOrThrow();
}

/** Key, phone and text of everything in the outbox, by key. */
export async function queuedTexts(db: Db) {
  return await db.selectFrom('outbox').select(['key', 'phone', 'text']).orderBy('key').execute();
}
