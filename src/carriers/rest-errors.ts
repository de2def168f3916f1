/** What the error codes of a Twilio-compatible carrier mean for a text (its public documentation of error codes). */

/**
 * `permanent`: this text never goes to this number. `opted-out`: the number has stopped texts at the carrier. `gone`: the number
 * is no longer in service. `tomorrow`: the phone cannot be reached now. `later`: try again soon. `alarm`: nothing will go
 * until somebody mends the settings.
 */
export type Meaning = 'permanent' | 'opted-out' | 'gone' | 'tomorrow' | 'later' | 'alarm';

const MEANINGS: Readonly<Record<number, Meaning>> = {
  20003: 'alarm',
  20404: 'alarm',
  20429: 'later',
  21211: 'permanent',
  21606: 'alarm',
  21610: 'opted-out',
  21611: 'later',
  21612: 'permanent',
  21614: 'permanent',
  21635: 'permanent',
  30001: 'later',
  30003: 'tomorrow',
  30004: 'permanent',
  30005: 'gone',
  30006: 'permanent',
  30007: 'alarm',
  30008: 'later',
};

/** The meaning of a code; of one that is not known, by the HTTP status: refused for good, refused for us, or for now. */
export function meaningOf(code: number | null, status: number): Meaning {
  const known = code === null ? undefined : MEANINGS[code];
  if (known) return known;
  if (status === 401 || status === 403 || status === 404) return 'alarm';
  return status === 429 ? 'later' : 'permanent';
}
