/** The state of each phone's conversation, its order of texts, and whether the number wants texts at all. */
import { type Executor, readyQuery } from './ready-query.ts';
import type { Flag, PhonesTable } from './tables.ts';

/** What any conversation state carries, whatever else is in it. */
export interface StoredState {
  /** Version of the state's shape. */
  readonly v: number;
  readonly expiresMs: number;
}

const selectPhone = readyQuery((db, at: { number: string }) =>
  db.selectFrom('phones').selectAll().where('number', '=', at.number),
);

const putPhone = readyQuery((db, row: PhonesTable) =>
  db
    .insertInto('phones')
    .values({
      number: row.number,
      turns: row.turns,
      lang: row.lang,
      talk_version: row.talk_version,
      talk_state: row.talk_state,
      talk_expires_ms: row.talk_expires_ms,
      stopped: row.stopped,
    })
    .onConflict((on) =>
      on.column('number').doUpdateSet((eb) => ({
        turns: eb.ref('excluded.turns'),
        lang: eb.ref('excluded.lang'),
        talk_version: eb.ref('excluded.talk_version'),
        talk_state: eb.ref('excluded.talk_state'),
        talk_expires_ms: eb.ref('excluded.talk_expires_ms'),
      })),
    ),
);

/** The phone's row, or null when this number was never seen. */
export async function findPhone(db: Executor, number: string): Promise<PhonesTable | null> {
  return (await selectPhone(db, { number }))[0] ?? null;
}

/** The state kept for the phone; null when there is none, it has expired, or another version wrote it. */
export function talkState<State extends StoredState>(
  phone: PhonesTable | null,
  version: number,
  nowMs: number,
): State | null {
  if (phone === null || phone.talk_state === null || phone.talk_version !== version) return null;
  if (phone.talk_expires_ms === null || phone.talk_expires_ms <= nowMs) return null;
  return JSON.parse(phone.talk_state) as State;
}

/** Keeps the phone's next state and how many texts it has sent; leaves its opt-out as it is. */
export async function keepTalk(
  db: Executor,
  number: string,
  turns: number,
  lang: string | null,
  state: StoredState | null,
): Promise<void> {
  const talk = {
    talk_version: state?.v ?? null,
    talk_state: state === null ? null : JSON.stringify(state),
    talk_expires_ms: state?.expiresMs ?? null,
  };
  await putPhone(db, { number, turns, lang, ...talk, stopped: 0 });
}

/** Marks the number as opted out (1) or back in (0); the phone must have a row. */
export async function markStopped(db: Executor, number: string, stopped: Flag): Promise<void> {
  await db.updateTable('phones').set({ stopped }).where('number', '=', number).execute();
}
