/** All that a conversation step may know: the phone's people, plots and past, the scheme and its rules. Plain data. */

import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Activity, Measures, Stage } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { Group } from './group.ts';
import type { KeptRain, KeptReport, PlotWorld } from './plot-world.ts';
import type { SchemeWorld } from './scheme-world.ts';

export type { KeptRain, KeptReport, NewRain, PlotWorld } from './plot-world.ts';
export type { SchemeWorld } from './scheme-world.ts';

export interface Person {
  readonly id: string;
  readonly name: string;
  /** Language tag, a folder of `locales/`. */
  readonly lang: string;
  readonly role: 'grower' | 'agent';
}

export interface World {
  readonly today: Day;
  /** Milliseconds since the epoch, for the expiry of questions only. */
  readonly nowMs: number;
  readonly scheme: SchemeWorld;
  readonly rulebook: Rulebook;
  /** People who use this phone; empty for an unknown number. */
  readonly people: readonly Person[];
  readonly plots: readonly PlotWorld[];
  /** What the agent who texts answers for; absent for growers. */
  readonly group?: Group;
  /** Who is texting: the phone's only user, or who said so within the hour; absent where that is not known. */
  readonly speaker?: Person;
  /** The number may be somebody else's by now: nothing personal is said before that was asked. */
  readonly doubted?: true;
  /** What the tying of a second phone needs; absent where the text cannot lead to it. */
  readonly linking?: Linking;
  /** The newest inbound text of this phone that recorded something not yet undone; null when none. */
  readonly lastBatch: {
    readonly id: string;
    readonly reports: readonly KeptReport[];
    readonly rains?: readonly KeptRain[];
  } | null;
  /** True when the number has opted out. */
  readonly stopped: boolean;
  /** Cautions already given on this phone, by activity. */
  readonly cautioned: readonly string[];
}

/** An open code that ties a second phone to one person. */
export interface PhoneOffer {
  readonly id: string;
  readonly personId: string;
  readonly name: string;
  readonly lang: string;
  /** The phone that the code was texted to, in E.164 form. */
  readonly phone: string;
  /** Numbers of the person's plots. */
  readonly numbers: readonly string[];
}

export interface Linking {
  /** A code that no open offer has. */
  readonly freshCode: string;
  /** Other phones of each person who uses this one, by the person's id. */
  readonly others: Readonly<Record<string, readonly string[]>>;
  /** The last digits of the phone that texts. */
  readonly tail: string;
  /** What the code in the text stands for; null when it has none, or none that is open. */
  readonly offer: PhoneOffer | null;
}

/** A report to be written down. */
export interface NewReport {
  readonly seasonId: string;
  readonly activity: Activity;
  readonly stage: Stage;
  readonly on: Day | null;
  readonly measures: Measures;
  /** Id of the report whose day this one corrects. */
  readonly corrects?: string;
}
