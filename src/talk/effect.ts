/** What a conversation step asks the shell to do, as data. Only `web/` and `sweeps/` perform effects. */
import type { SeasonReset, Way } from '../agronomy/season.ts';
import type { Trouble } from '../hear/reading.ts';
import type { Day } from '../plan/day.ts';
import type { Saying } from '../say/message.ts';
import type { PeopleChange } from '../scheme/people-change.ts';
import type { Broadcast } from './broadcast.ts';
import type { NewRain, NewReport } from './world.ts';

/** A text to be sent on a day unless a later plan rewrites it. */
export interface Reminder {
  readonly on: Day;
  readonly seasonId: string;
  readonly activity: string;
  readonly why: 'tomorrow' | 'overdue' | 'closing' | 'rain' | 'turn';
}

/** What a new grower told the line on joining. */
export interface Joiner {
  readonly name: string;
  readonly lang: string;
  /** The consent's words as texted, kept with who, when and language. */
  readonly consent: string;
  readonly plots: readonly {
    readonly number: string;
    readonly blockId: string;
    readonly areaHa: number;
    readonly way: Way;
    readonly varietyDays: number;
  }[];
}

export type Effect =
  | { readonly do: 'record'; readonly report: NewReport }
  | { readonly do: 'record-rain'; readonly rain: NewRain }
  /** Takes back these reports and rains (ids as kept): another row for each, never a deletion. */
  | { readonly do: 'undo'; readonly reports: readonly string[] }
  /** Replaces all unsent reminders of one season. */
  | { readonly do: 'remind'; readonly seasonId: string; readonly reminders: readonly Reminder[] }
  /** The answer to the phone that texted, in so many parts where it may have more than usual; at most one per step, absent when nothing may be said. */
  | { readonly do: 'say'; readonly lang: string; readonly saying: Saying; readonly parts?: number }
  /** A text to another phone than the one that texted. */
  | { readonly do: 'text'; readonly phone: string; readonly lang: string; readonly saying: Saying }
  /** A trouble for the agent's list; `not-understood` is a text that could not be read twice in a row. */
  | {
      readonly do: 'note-trouble';
      readonly seasonId: string;
      readonly what: Trouble | 'not-understood';
      readonly until: Day | null;
      readonly words: string;
    }
  | { readonly do: 'join'; readonly joiner: Joiner }
  | { readonly do: 'rename'; readonly personId: string; readonly name: string }
  | { readonly do: 'set-language'; readonly personId: string; readonly lang: string }
  /** A new choice about one season's wishes (a later target, another way). */
  | {
      readonly do: 'change-season';
      readonly seasonId: string;
      readonly change: SeasonReset;
    }
  /** Opt-out and opt-in hold for the number, whoever uses it. */
  | { readonly do: 'stop' }
  | { readonly do: 'start' }
  | { readonly do: 'forget'; readonly personId: string }
  /** A code, kept until then, that ties another phone to the person; it takes the place of an older one. */
  | {
      readonly do: 'offer-phone';
      readonly personId: string;
      readonly code: string;
      readonly untilMs: number;
    }
  /** Ties the phone that texted to the person of the offer. */
  | { readonly do: 'link-phone'; readonly offerId: string; readonly personId: string }
  | { readonly do: 'unlink-phone'; readonly personId: string; readonly phone: string }
  /** The number that texted is still its people's. */
  | { readonly do: 'vouch' }
  /** The number that texted has gone to somebody else: its people are texted there no more. */
  | { readonly do: 'release-phone' }
  /** Texts for many phones: kept now, queued by the sweeps. */
  | { readonly do: 'broadcast'; readonly broadcast: Broadcast }
  | { readonly do: 'change-people'; readonly change: PeopleChange }
  /** What an agent did, for the record of who did what and when. */
  | { readonly do: 'note-act'; readonly personId: string; readonly act: string; readonly details: string }
  /** The caution of this activity was given on this phone. */
  | { readonly do: 'cautioned'; readonly activity: string };
