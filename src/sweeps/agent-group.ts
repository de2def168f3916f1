/** The group that an agent's phone speaks for, with what only the shell can do for it: chance, sizes of texts, phone numbers. */
import { measure } from '../say/parts.ts';
import { loadGroup } from '../store/load-group.ts';
import type { PhoneFacts, Setting } from '../store/load-phone.ts';
import type { Executor } from '../store/ready-query.ts';
import type { Group } from '../talk/group.ts';
import { AGENT_PARTS } from '../talk/turn.ts';
import type { Line } from './line.ts';
import { senderNumber } from './sender.ts';

/** Parts that any text may have while it is measured: nothing is left out. */
const NO_LIMIT = 99;

/** The group of the first agent who uses the phone; null where none does. */
export async function groupOf(
  db: Executor,
  line: Line,
  { people }: PhoneFacts,
  setting: Setting,
): Promise<Group | null> {
  const agent = people.find(({ role }) => role === 'agent');
  if (!agent) return null;
  return {
    ...(await loadGroup(db, agent.id, setting)),
    freshCode: line.makeCode(),
    partsOf: (lang, saying) => measure(line.voice(lang).say(saying, NO_LIMIT)).parts,
    fits: (lang, saying) => {
      const { encoding, parts } = measure(line.voice(lang).say(saying, NO_LIMIT));
      return parts <= AGENT_PARTS + (encoding === 'UCS-2' ? 1 : 0);
    },
    readPhone: (text) => senderNumber(text, setting.scheme.country),
  };
}
