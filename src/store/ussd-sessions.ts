/** Where each phone's session of numbered screens stands. It is kept here: what a carrier repeats of the way is not relied on. */
import type { Screen } from '../talk/screens/screen.ts';
import type { Executor } from './ready-query.ts';

/** No network keeps a session longer (CARRIERS: 120 to 180 s): a hit after that begins another, whatever its id. */
export const SESSION_MS = 3 * 60_000;
/** A session that was lost can be gone on with for so long. */
export const RESUME_MS = 15 * 60_000;

export interface UssdSession {
  readonly phone: string;
  /** Null where the carrier sends none. */
  readonly sessionId: string | null;
  readonly version: number;
  readonly screen: Screen;
  /** The input of the newest hit as it came. */
  readonly seen: string;
  /** An empty input came on a later hop: the carrier may begin to count inputs anew. */
  readonly restarted: boolean;
  readonly hitId: string | null;
  readonly hops: number;
  /** What the newest hit was answered. */
  readonly answer: string;
  readonly ended: boolean;
  readonly lastMs: number;
}

/** The phone's newest session of this version that can still be gone on with; null when there is none. */
export async function findSession(
  db: Executor,
  phone: string,
  version: number,
  nowMs: number,
): Promise<UssdSession | null> {
  const found = db.selectFrom('ussd_sessions').selectAll().where('phone', '=', phone);
  const [row] = await found.where('version', '=', version).where('expires_ms', '>', nowMs).execute();
  if (row === undefined) return null;
  return {
    phone,
    version,
    sessionId: row.session_id,
    screen: JSON.parse(row.screen) as Screen,
    seen: row.seen,
    restarted: row.restarted === 1,
    hitId: row.hit_id,
    hops: row.hops,
    answer: row.answer,
    ended: row.ended === 1,
    lastMs: row.last_ms,
  };
}

/** Keeps the session in place of the phone's last one. */
export async function keepSession(db: Executor, session: UssdSession): Promise<void> {
  const row = {
    session_id: session.sessionId,
    version: session.version,
    screen: JSON.stringify(session.screen),
    seen: session.seen,
    restarted: session.restarted ? 1 : 0,
    hit_id: session.hitId,
    hops: session.hops,
    answer: session.answer,
    ended: session.ended ? 1 : 0,
    last_ms: session.lastMs,
    expires_ms: session.lastMs + RESUME_MS,
  } as const;
  const insert = db.insertInto('ussd_sessions').values({ phone: session.phone, ...row });
  await insert.onConflict((on) => on.column('phone').doUpdateSet(row)).execute();
}
