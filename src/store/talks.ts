/** The state of each phone's conversation, its order of texts, and whether the number wants texts at all. */
import { type Executor, readyQuery } from './ready-query.ts';
import type { Flag, PhoneRow } from './tables.ts';

/** What any conversation state carries, whatever else is in it. */
export interface StoredState {
  /** Version of the state's shape. */
  readonly v: number;
  readonly expiresMs: number;
}

const selectPhone = readyQuery((db, at: { number: string }) =>
  db.selectFrom('phones').selectAll().where('number', '=', at.number),
);

const putPhone = readyQuery((db, row: Omit<PhoneRow, 'gone'>) =>
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
      vouched_ms: row.vouched_ms,
    })
    .onConflict((on) =>
      on.column('number').doUpdateSet((eb) => ({
        turns: eb.ref('excluded.turns'),
        lang: eb.ref('excluded.lang'),
        talk_version: eb.ref('excluded.talk_version'),
        talk_state: eb.ref('excluded.talk_state'),
        talk_expires_ms: eb.ref('excluded.talk_expires_ms'),
        vouched_ms: eb.ref('excluded.vouched_ms'),
        // Whoever texts from it shows that the number is in service.
        gone: eb.val(0),
      })),
    ),
);

/** The phone's row, or null when this number was never seen. */
export async function findPhone(db: Executor, number: string): Promise<PhoneRow | null> {
  return (await selectPhone(db, { number }))[0] ?? null;
}

/** The state kept for the phone; null when there is none, it has expired, or another version wrote it. */
export function talkState<State extends StoredState>(
  phone: PhoneRow | null,
  version: number,
  nowMs: number,
): State | null {
  if (phone === null || phone.talk_state === null || phone.talk_version !== version) return null;
  if (phone.talk_expires_ms === null || phone.talk_expires_ms <= nowMs) return null;
  return JSON.parse(phone.talk_state) as State;
}

/** What a phone's newest text leaves behind. */
export interface Talked {
  readonly number: string;
  /** How many texts it has sent. */
  readonly turns: number;
  readonly lang: string | null;
  readonly state: StoredState | null;
  /** When the number was last known to be its people's. */
  readonly vouchedMs: number | null;
}

/** Keeps the phone's next state; leaves its opt-out as it is. */
export async function keepTalk(
  db: Executor,
  { number, turns, lang, state, vouchedMs }: Talked,
): Promise<void> {
  await putPhone(db, { number, turns, lang, ...columnsOf(state), stopped: 0, vouched_ms: vouchedMs });
}

/** Keeps the phone's next state where the line itself has asked something; no text has come. */
export async function keepQuestion(db: Executor, number: string, state: StoredState | null): Promise<void> {
  await db.updateTable('phones').set(columnsOf(state)).where('number', '=', number).execute();
}

const columnsOf = (state: StoredState | null) => ({
  talk_version: state?.v ?? null,
  talk_state: state === null ? null : JSON.stringify(state),
  talk_expires_ms: state?.expiresMs ?? null,
});

const DAY_MS = 86_400_000;
/** A number that was silent for longer may be somebody else's by now: networks give unused numbers out again (from memory). */
const SILENT_MS = 180 * DAY_MS;

/** Whether the number may have gone to somebody else. */
export function isDoubted({ vouched_ms }: Pick<PhoneRow, 'vouched_ms'>, nowMs: number): boolean {
  return vouched_ms !== null && nowMs - vouched_ms > SILENT_MS;
}

/** Of a number that texts now: a doubt stays until it is answered. */
export const vouchedNow = (row: PhoneRow | null, nowMs: number): number =>
  row !== null && row.vouched_ms !== null && isDoubted(row, nowMs) ? row.vouched_ms : nowMs;

/** Notes that the number is its people's now. */
export async function vouchFor(db: Executor, number: string, nowMs: number): Promise<void> {
  await db.updateTable('phones').set({ vouched_ms: nowMs }).where('number', '=', number).execute();
}

/** Marks the number as opted out (1) or back in (0); the phone must have a row. */
export async function markStopped(db: Executor, number: string, stopped: Flag): Promise<void> {
  await db.updateTable('phones').set({ stopped }).where('number', '=', number).execute();
}

/** Numbers that a carrier found gone so often in a row are not texted until somebody texts from them. */
const GONE_TWICE = 2;

/** Notes that a carrier calls the number out of service: whoever texts from it next is asked whose it is. */
export async function markGone(db: Executor, number: string): Promise<void> {
  const phone = db.updateTable('phones').set((eb) => ({ gone: eb('gone', '+', 1), vouched_ms: 0 }));
  await phone.where('number', '=', number).execute();
}

/** Notes that a text reached the number. */
export async function markReached(db: Executor, number: string): Promise<void> {
  const phone = db.updateTable('phones').set({ gone: 0 }).where('number', '=', number);
  await phone.where('gone', '>', 0).execute();
}

/** Fails every queued text to a number that is out of service. */
export async function dropGone(db: Executor, nowMs: number): Promise<void> {
  const failed = { state: 'failed', why: 'number gone', settled_ms: nowMs } as const;
  const gone = db.selectFrom('phones').select('number').where('gone', '>=', GONE_TWICE);
  const queued = db.updateTable('outbox').set(failed).where('state', '=', 'queued');
  await queued.where('phone', 'in', gone).execute();
}
