/** All that a conversation step may know: the phone's people, plots and past, the scheme and its rules. Plain data. */

import type { Rulebook } from '../agronomy/rulebook.ts';
import type {
  Activity,
  Climate,
  JoinWay,
  Measures,
  Rain,
  Report,
  Season,
  Stage,
} from '../agronomy/season.ts';
import type { Canal } from '../agronomy/sums/plot-water.ts';
import type { Day } from '../plan/day.ts';
import type { AreaUnit } from '../scheme/area-unit.ts';
import type { CanalHours, PricePerPart, SharedTeam } from '../scheme/group-section.ts';
import type { SchemeNutrients } from '../scheme/nutrients-section.ts';
import type { Group } from './group.ts';

export interface Person {
  readonly id: string;
  readonly name: string;
  /** Language tag, a folder of `locales/`. */
  readonly lang: string;
  readonly role: 'grower' | 'agent';
}

export interface PlotWorld {
  readonly id: string;
  /** The number that is unique on its phone: "plot 3" is "3". */
  readonly number: string;
  /** The scheme's own label, "A-17". */
  readonly label: string | null;
  readonly ownerId: string;
  readonly blockId: string;
  readonly seasonId: string;
  /** The season with its reports and rain as kept; what was taken back is not among them. */
  readonly season: Omit<Season, 'reports' | 'rains'> & {
    readonly reports: readonly KeptReport[];
    readonly rains?: readonly KeptRain[];
  };
}

/** Rain as kept. */
export interface KeptRain extends Rain {
  readonly id: string;
  readonly seasonId: string;
  readonly batch: string;
}

/** Rain to be written down, in mm. */
export interface NewRain extends Rain {
  readonly seasonId: string;
}

/** A report as kept: which text it came with, so that one UNDO takes back the whole text. */
export interface KeptReport extends Report {
  readonly id: string;
  readonly seasonId: string;
  /** Id of the inbound text that brought it. */
  readonly batch: string;
}

export interface SchemeWorld {
  readonly id: string;
  readonly name: string;
  readonly code: string;
  /** Languages of the scheme, the first is the default. */
  readonly languages: readonly string[];
  readonly officer: { readonly name: string; readonly phone: string };
  /** Its own unit of area, where it has one. */
  readonly areaUnit?: AreaUnit;
  /** Usual weather of the place, where it is known. */
  readonly climate?: Climate;
  /** What is recommended and sold there, where the scheme's file says it. */
  readonly nutrients?: SchemeNutrients;
  readonly blocks: readonly {
    readonly id: string;
    readonly name: string;
    readonly water: Season['blockWater'];
    readonly target: Season['target'];
    /** How those who join in the block grow, where it is not the usual way. */
    readonly way?: JoinWay;
    readonly canal?: Canal & CanalHours;
  }[];
  readonly pricePerPart?: PricePerPart;
  /** With the ids of their blocks as kept. */
  readonly sharedTeams?: readonly SharedTeam[];
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
