/** Where a conversation stands between two texts: stored as JSON, with a version and an expiry. */
import type { Activity, SeasonChange, SeasonReset, Way } from '../agronomy/season.ts';
import type { Reading, SumName } from '../hear/reading.ts';
import type { Day } from '../plan/day.ts';
import { type AgentMemory, NO_AGENT_MEMORY } from './agent/deed.ts';
import type { UnreadRow } from './unread-row.ts';
import type { NewRain, NewReport } from './world.ts';

/** Raised whenever a stored state of an older shape could be misread; older states are dropped. */
export const STATE_VERSION = 9;
/** A question is open for this long. */
export const QUESTION_MS = 24 * 60 * 60 * 1000;
/** Joining may take a few days: people look up their areas. */
export const JOIN_MS = 3 * QUESTION_MS;
/** Who texts from a shared phone is remembered so long after the newest text. */
export const SESSION_MS = 60 * 60 * 1000;

/** WHY may be asked this long after the advice. */
export const TOPIC_MS = 14 * QUESTION_MS;

/** A text that waits till the line knows whose it is: its words, what was read in them, and the language that it named. */
export interface HeldText {
  readonly words: string;
  readonly readings: readonly Reading[];
  readonly language: string | null;
}

export const NOTHING_HELD: HeldText = { words: '', readings: [], language: null };

/** What choosing an option does. */
export type Outcome =
  | { readonly do: 'read'; readonly readings: readonly Reading[] }
  | { readonly do: 'record'; readonly reports: readonly NewReport[] }
  /** Rain in place of what it replaces (ids as kept). */
  | { readonly do: 'record-rain'; readonly rains: readonly NewRain[]; readonly replaces: readonly string[] }
  | { readonly do: 'rename'; readonly personId: string; readonly name: string }
  | { readonly do: 'undo'; readonly reports: readonly string[] }
  | { readonly do: 'change-season'; readonly seasonId: string; readonly change: SeasonChange }
  | { readonly do: 'forget'; readonly personId: string }
  /** This person texts from the shared phone: the readings are his or hers. */
  | ({ readonly do: 'speak'; readonly personId: string } & HeldText)
  /** The number is still its people's; or somebody else has it now. */
  | ({ readonly do: 'vouch' } & HeldText)
  | { readonly do: 'ask-release' }
  | { readonly do: 'release' }
  | { readonly do: 'unlink'; readonly personId: string; readonly phone: string }
  | { readonly do: 'say'; readonly key: string; readonly values: Readonly<Record<string, string>> };

export interface JoinSoFar {
  readonly lang: string;
  readonly consent: string;
  readonly name: string;
  readonly plots: number;
  readonly areasHa: readonly number[];
  readonly blockId: string;
  readonly tillage: Way['tillage'];
  readonly varietyDays: number;
}

export type JoinStep = 'consent' | 'name' | 'plots' | 'areas' | 'block' | 'tillage' | 'variety' | 'sure';

/** What the line has asked, or nothing; `kept` when the text that raised the question also recorded something. */
export type Standing =
  | { readonly at: 'idle' }
  | { readonly at: 'which-plot'; readonly readings: readonly Reading[]; readonly kept?: true }
  | { readonly at: 'choose'; readonly options: readonly Outcome[]; readonly kept?: true }
  /** Depths of water in cm so far, spot by spot. */
  | { readonly at: 'survey'; readonly plotId: string; readonly depthsCm: readonly number[] }
  | { readonly at: 'join'; readonly step: JoinStep; readonly soFar: Partial<JoinSoFar> }
  /** An agent's number that is in doubt: the agent's name is awaited. */
  | { readonly at: 'agent-name' };

export interface TalkState {
  readonly v: number;
  readonly expiresMs: number;
  readonly standing: Standing;
  /** What WHY is about. */
  readonly topic: Topic | null;
  /** Seasons whose old seedlings were asked about: the question is not put again with every report. */
  readonly asked: readonly string[];
  /** What the newest text changed in seasons, for UNDO; null when it recorded reports or changed nothing since. */
  readonly undoable: Undoable | null;
  /** Texts in a row that could not be read and raised no question. */
  readonly misses: number;
  /** Of an agent's phone. */
  readonly agent: AgentMemory;
  /** Of texts in a row that could not be read, for silence. */
  readonly row?: UnreadRow;
  /** Who texts from a shared phone, and until when that is remembered. */
  readonly speaker: { readonly personId: string; readonly untilMs: number } | null;
  /** Wrong codes and names texted from this phone on a day. */
  readonly wrongCodes: WrongCodes | null;
}

export interface WrongCodes {
  readonly on: Day;
  readonly count: number;
}

/** Seasons as they were before they were changed on a day. */
export interface Undoable {
  readonly on: Day;
  readonly seasons: readonly { readonly seasonId: string; readonly before: SeasonReset }[];
}

/** What is carried from text to text beside an open question. */
export type Memory = Omit<TalkState, 'v' | 'expiresMs' | 'standing'>;

export const NO_MEMORY: Memory = {
  topic: null,
  asked: [],
  undoable: null,
  misses: 0,
  agent: NO_AGENT_MEMORY,
  speaker: null,
  wrongCodes: null,
};

/** The plot that was last spoken of, and the step that was advised. */
export interface Topic {
  readonly plotId: string;
  readonly activity: Activity | null;
  /** The rule that a warning was about. */
  readonly rule?: string;
  /** The field sum that was answered. */
  readonly sum?: SumName;
  /** Nutrients by figures in the text, or without products; water for a month or a depth: each has a reason of its own. */
  readonly variant?: 'own' | 'plain' | 'month' | 'depth';
}

const LIVES: Partial<Record<Standing['at'], number>> = { idle: TOPIC_MS, join: JOIN_MS };

/** Whose phone it is was asked in place of a reminder: nobody need answer it the same day. */
const isWhose = (standing: Standing) => standing.at === 'choose' && standing.options[0]?.do === 'vouch';

/** A state that starts now; questions and joining expire, each in its own time. */
export function stateAt(nowMs: number, standing: Standing, memory: Memory): TalkState {
  const lives = LIVES[standing.at] ?? (isWhose(standing) ? TOPIC_MS : QUESTION_MS);
  return { v: STATE_VERSION, expiresMs: nowMs + lives, standing, ...memory };
}

/** The state if it can still be used; null when it is of another version or has expired. */
export function liveState(state: TalkState | null, nowMs: number): TalkState | null {
  return state && state.v === STATE_VERSION && state.expiresMs > nowMs ? state : null;
}
