/** The shape of the rulebook: rules between activities and single figures, each with the source beside it. */
import type { Activity, Way } from './season.ts';

/** How well a figure is founded: published and seen, quoted by a second source, common practice, from memory, the scheme's own. */
export type Mark = 'published' | 'second-hand' | 'common-practice' | 'from-memory' | 'scheme';

export interface Source {
  readonly text: string;
  readonly mark: Mark;
}

/** One end of an activity: the day it starts or the day it ends. */
export interface PointName {
  readonly activity: Activity;
  readonly at: 'start' | 'end';
}

/** `must` is physical; `should` may give way at its cost; `aim` only prefers. */
export type RuleStrength = 'must' | 'should' | 'aim';

/** Ways of growing for which a rule holds; a missing field means any. */
export type When = { readonly [K in keyof Way]?: readonly Way[K][] };

/** A gap in whole days: `lo <= to - from <= hi`, best at `aim`; null means no bound. */
export interface Rule {
  readonly name: string;
  readonly from: PointName;
  readonly to: PointName;
  readonly lo: number | null;
  readonly aim: number | null;
  readonly hi: number | null;
  readonly strength: RuleStrength;
  /** What breaking the lower or the upper side costs the grower: rank for the planner (low gives way first), words as a message key. */
  readonly costLo?: Cost;
  readonly costHi?: Cost;
  readonly when?: When;
  readonly sources: readonly Source[];
}

export interface Cost {
  readonly rank: number;
  /** Name of the consequence: "weeds return". The message `cost.<name>` says it to the grower. */
  readonly name: string;
  readonly text: string;
}

/** A single number with its unit and source: depths, work rates, seedling ages. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
  readonly sources: readonly Source[];
}

export interface Rulebook {
  readonly rules: readonly Rule[];
  readonly figures: Readonly<Record<string, Figure>>;
}
