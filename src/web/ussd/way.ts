/** Which keys a hit brings: those behind what was seen before, none when the hit was answered before, or all of a new dial. */
import { SESSION_MS, type UssdSession } from '../../store/ussd-sessions.ts';

/** A hit, checked. */
export interface HitIn {
  /** In E.164 form. */
  readonly phone: string;
  /** Null where the carrier sends none. */
  readonly sessionId: string | null;
  readonly inputs: 'joined' | 'latest';
  readonly input: string;
  /** The carrier's id of this hit; null where it sends none. */
  readonly hitId: string | null;
  /** What people dial. */
  readonly code: string | null;
}

export type Way =
  /** Answered before: the same answer again. */
  | { readonly kind: 'repeat' }
  /** Nothing was keyed: the same screen again, after which inputs may be counted anew. */
  | { readonly kind: 'empty' }
  | { readonly kind: 'on'; readonly keys: readonly string[] }
  | { readonly kind: 'dial'; readonly keys: readonly string[] };

/**
 * A carrier that sends only the newest input, and no id of a hit, cannot tell a second delivery from a key pressed twice.
 * Nobody reads a screen and keys in an answer so fast. What comes again later counts as a key, but confirms nothing: in this
 * form the screens see to it (`mayDouble`).
 */
export const TWICE_MS = 3_000;

/** The way of a hit on a phone whose newest session is this. */
export function wayOf(session: UssdSession | null, hit: HitIn, nowMs: number): Way {
  const dial: Way = { kind: 'dial', keys: keysOf(withoutCode(hit.input, hit.code)) };
  if (session === null || !isSame(session, hit, nowMs)) return dial;
  if (hit.hitId !== null && hit.hitId === session.hitId) return { kind: 'repeat' };
  const { input } = hit;
  const isTwice = hit.inputs === 'joined' || (hit.hitId === null && nowMs - session.lastMs < TWICE_MS);
  if (isTwice && input === session.seen) return { kind: 'repeat' };
  if (session.ended) return dial;
  if (keysOf(input).length === 0) return session.sessionId === null ? dial : { kind: 'empty' };
  return hit.inputs === 'latest' ? { kind: 'on', keys: keysOf(input) } : joinedWay(session, input, dial);
}

/** What follows the last seen text; a shorter one comes late and was answered, another one is a new dial. */
function joinedWay({ seen, restarted }: UssdSession, input: string, dial: Way): Way {
  const before = seen === '' || seen.endsWith('*') ? seen : `${seen}*`;
  if (input.startsWith(before)) return { kind: 'on', keys: keysOf(input.slice(before.length)) };
  if (restarted) return { kind: 'on', keys: keysOf(input) };
  return seen.startsWith(`${input}*`) ? { kind: 'repeat' } : dial;
}

/** Ids come again: only on a session that can still be open do they mean the same. */
function isSame({ sessionId, lastMs }: UssdSession, hit: HitIn, nowMs: number): boolean {
  return sessionId === hit.sessionId && nowMs - lastMs < SESSION_MS && nowMs >= lastMs;
}

/** People key in `*` themselves: it stands between keys. `keysOf('1**2#')` is ["1", "2"]. */
export function keysOf(input: string): readonly string[] {
  const bare = input.trim().replace(/#$/, '');
  return bare
    .split('*')
    .map((key) => key.trim())
    .filter((key) => key !== '');
}

/** "*123*1*2#" without the code that was dialled: "1*2". */
function withoutCode(input: string, code: string | null): string {
  const bare = input.trim().replace(/#$/, '');
  if (code !== null && (bare === code || bare.startsWith(`${code}*`))) return bare.slice(code.length);
  return bare.startsWith('*') ? bare.replace(/^\*[^*]*/, '') : bare;
}
