/** The line as one thing: the database, the clock, the rules and the voices, put together once and passed down. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Carrier } from '../carriers/carrier.ts';
import type { Clock } from '../clock.ts';
import type { Details } from '../hear/details.ts';
import type { Heard } from '../hear/reading.ts';
import type { Day } from '../plan/day.ts';
import type { Saying } from '../say/message.ts';
import type { AreaUnit } from '../scheme/area-unit.ts';
import type { MakeCode } from '../store/codes.ts';
import type { CommitTogether } from '../store/commit-together.ts';
import type { MakeId } from '../store/ids.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import type { Db } from '../store/open.ts';
import type { StoredState } from '../store/talks.ts';
import type { BroadcastHead, Delivery, Recipient } from '../talk/broadcast.ts';
import type { Effect, Reminder } from '../talk/effect.ts';
import type { TextEvent } from '../talk/event.ts';
import type { World } from '../talk/world.ts';

/** One language, heard and said. */
export interface Voice {
  readonly lang: string;
  /** What the text says; `unit` is the scheme's own unit of area, `blocks` are names that an agent may text. */
  hear(text: string, today: Day, unit?: AreaUnit, blocks?: readonly string[]): Heard;
  details(text: string, unit?: AreaUnit): Details;
  /** Why a word cannot name a unit of area in this language; null when it can. */
  whyTaken(word: string): string | null;
  /** Whether a handset or a network of this language sent it by itself; `heard` is what was read in the phone's language. */
  isAutomatic(text: string, today: Day, heard: Heard): boolean;
  /** How many of its words are of this language. */
  wordsKnown(text: string): number;
  /** Words of a text in no phrase of this language, and those that stand in its phrases about the work, by their letters. */
  strangersIn(text: string): readonly string[];
  workWordsIn(text: string): readonly string[];
  /** The text in this language, within `budgetParts` where that can be; throws when a message is missing. */
  say(saying: Saying, budgetParts?: number): string;
}

/** The conversation: pure, and the only thing that decides what to record and what to say. */
export interface Talk {
  /** Version of the state that `step` writes; a state of another version is not shown to it. */
  readonly version: number;
  step(
    state: StoredState | null,
    event: TextEvent,
    world: World,
  ): {
    readonly state: StoredState | null;
    readonly effects: readonly Effect[];
    /** Nothing comes of the text: what was asked stays asked. */
    readonly silent?: true;
  };
  /** Reminders of every plot, as its plan stands. */
  plan(world: World): { readonly effects: readonly Effect[] };
  /** Asks whose phone it is, in place of reminders. */
  askWhose(
    world: World,
    lang: string,
  ): { readonly state: StoredState | null; readonly effects: readonly Effect[] };
  remind(world: World, due: readonly Reminder[]): { readonly effects: readonly Effect[] };
  /** What one person is told by a broadcast; `delivered` is what its agent is told of it afterwards. */
  broadcast(head: BroadcastHead, recipient: Recipient): Saying;
  delivered(delivery: Delivery, named: number): Saying;
  /** The week's text to the agent whose world it is; null when there is nothing to tell. */
  digest(world: World): Saying | null;
}

/** Where faults and counts are written; no phone number is ever passed to it. */
export interface Log {
  info(facts: object, message: string): void;
  warn(facts: object, message: string): void;
  error(facts: object, message: string): void;
}

export interface Line {
  readonly db: Db;
  readonly together: CommitTogether;
  readonly clock: Clock;
  readonly makeId: MakeId;
  readonly makeCode: MakeCode;
  readonly carrier: Carrier;
  readonly talk: Talk;
  readonly log: Log;
  /** Every scheme; the first takes in unknown numbers. */
  schemes(): readonly SchemeEntry[];
  /** The rules of one scheme: the rulebook as it holds there. */
  rulebook(scheme: SchemeEntry): Rulebook;
  /** Every language that the line speaks. */
  voices(): readonly Voice[];
  /** The voice of a language; of the first language when this one is not spoken. */
  voice(lang: string): Voice;
}
