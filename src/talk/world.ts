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
