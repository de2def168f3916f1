/** Which scheme, rules and day hold for a phone. */

import type { PhoneFacts, Setting } from '../store/load-phone.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import { localDay } from '../store/local-time.ts';
import type { Line } from './line.ts';

/** The scheme of the phone's first person; for an unknown number, the first scheme. Throws when there is none. */
export function schemeOf(line: Line, facts: Pick<PhoneFacts, 'people'>): SchemeEntry {
  const schemes = line.schemes();
  const own = schemes.find((scheme) => scheme.world.id === facts.people[0]?.schemeId) ?? schemes[0];
  if (own === undefined) throw new Error('the line has no scheme');
  return own;
}

/** What the phone's world is built with, at this instant. */
export function settingOf(line: Line, scheme: SchemeEntry, nowMs: number): Setting {
  return { scheme, rulebook: line.rulebook(scheme), today: localDay(nowMs, scheme.timeZone), nowMs };
}
