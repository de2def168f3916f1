/**
 * The one-time code: what would reach several phones, or change what is someone else's, is previewed, and done when the code
 * comes back from the phone that the preview went to. A forged sender never sees it.
 */

import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import type { AgentMemory, Deed, Pending } from './deed.ts';

const MINUTE_MS = 60_000;
/** A code holds so long: time to read the preview and to ask someone, no more. */
const CODE_MINUTES = 30;
/** So many wrong codes end a preview, */
const MOST_WRONG = 3;
/** and so many in a day end all codes till the next. */
const MOST_WRONG_A_DAY = 6;

const isLocked = (world: World, { wrong }: AgentMemory) =>
  wrong !== null && wrong.on === world.today && wrong.count >= MOST_WRONG_A_DAY;

/** The preview with its code, what has no room in it by MORE; while codes are locked, only that. */
export function propose(
  world: World,
  memory: AgentMemory,
  deed: Deed,
  preview: readonly Sentence[],
  rest: readonly Sentence[] = [],
): Part {
  const { group } = world;
  if (!group || isLocked(world, memory)) return saying('agent.locked');
  const pending: Pending = {
    deed,
    code: group.freshCode,
    untilMs: world.nowMs + CODE_MINUTES * MINUTE_MS,
    wrong: 0,
    older: olderCodes(memory),
  };
  const code: Sentence = { key: 'agent.code', values: { code: pending.code, minutes: CODE_MINUTES } };
  const more: Sentence[] = rest.length > 0 ? [{ key: 'agent.more', values: { count: rest.length } }] : [];
  return { say: [...preview, ...more, code], agent: { pending, rest } };
}

/** What a texted code leads to: the deed by `carryOut`, once, while it is right, fresh and not locked. */
export function answerCode(
  world: World,
  memory: AgentMemory,
  said: string,
  carryOut: (deed: Deed) => Part,
): Part {
  const { pending } = memory;
  if (isLocked(world, memory)) return saying('agent.locked');
  if (!pending) return saying('agent.no-code');
  if (world.nowMs >= pending.untilMs) return { ...saying('agent.code-old'), agent: { pending: null } };
  if (pending.older.includes(said)) return saying('agent.code-replaced');
  if (said !== pending.code) return wrongCode(world, memory, pending);
  const part = carryOut(pending.deed);
  return { ...part, agent: { ...part.agent, pending: null } };
}

/** So many orders back a code is known as an older one's. */
const OLDER_CODES = 5;
const olderCodes = ({ pending }: AgentMemory) =>
  pending ? [...pending.older, pending.code].slice(-OLDER_CODES) : [];

function wrongCode(world: World, { wrong }: AgentMemory, pending: Pending): Part {
  const count = (wrong?.on === world.today ? wrong.count : 0) + 1;
  const left = MOST_WRONG - pending.wrong - 1;
  const kept = left > 0 && count < MOST_WRONG_A_DAY ? { ...pending, wrong: pending.wrong + 1 } : null;
  const agent = { pending: kept, wrong: { on: world.today, count } };
  if (count >= MOST_WRONG_A_DAY) return { ...saying('agent.locked'), agent };
  return { ...(kept ? saying('agent.code-wrong', { count: left }) : saying('agent.code-void')), agent };
}
