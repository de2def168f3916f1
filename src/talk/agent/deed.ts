/** What an agent has asked for and not yet confirmed, as kept between two texts; and what is kept of codes. */
import type { Day } from '../../plan/day.ts';
import type { PeopleChange } from '../../scheme/people-change.ts';
import type { Sentence } from '../sentence.ts';

export type Deed =
  | { readonly do: 'flood'; readonly blockId: string; readonly on: Day }
  | { readonly do: 'words'; readonly blockIds: readonly string[]; readonly words: string }
  | { readonly do: 'team'; readonly teamId: string; readonly from: Day }
  | { readonly do: 'people'; readonly change: PeopleChange; readonly plotName: string };

export interface Pending {
  readonly deed: Deed;
  readonly code: string;
  readonly untilMs: number;
  /** Wrong codes for it so far. */
  readonly wrong: number;
  /** Codes of orders that it took the place of. */
  readonly older: readonly string[];
}

/** What an agent's phone carries from text to text. */
export interface AgentMemory {
  readonly pending: Pending | null;
  /** Wrong codes of one day: many of them lock the codes till the next. */
  readonly wrong: { readonly on: Day; readonly count: number } | null;
  /** Lines that had no room: MORE tells them. */
  readonly rest: readonly Sentence[];
}

export const NO_AGENT_MEMORY: AgentMemory = { pending: null, wrong: null, rest: [] };
