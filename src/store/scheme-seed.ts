/** What the store must be given to set up a scheme: the scheme file's content, no more of it than is kept. */
import type { RulebookOverrides } from '../agronomy/override-rulebook.ts';
import type { Climate, JoinWay, RestDays, Season, Span, Way } from '../agronomy/season.ts';
import type { Canal } from '../agronomy/sums/plot-water.ts';
import type { Day } from '../plan/day.ts';
import type { AreaUnit } from '../scheme/area-unit.ts';
import type { CanalHours, PricePerPart, SharedTeam } from '../scheme/group-section.ts';
import type { SchemeNutrients } from '../scheme/nutrients-section.ts';

export interface BlockSeed {
  readonly id: string;
  readonly name: string;
  readonly water: Span;
  readonly target: Span;
  /** The local start of the rains. */
  readonly rainFrom?: Day;
  /** How those who join in the block grow, where it is not the usual way; their tillage they tell themselves. */
  readonly way?: JoinWay;
}

export interface PersonSeed {
  readonly id: string;
  readonly name: string;
  readonly lang: string;
  readonly role: 'grower' | 'agent';
  /** In E.164 form; the first is texted the reminders. */
  readonly phones: readonly string[];
  /** Blocks that an agent answers for; all when not given. */
  readonly blocks?: readonly string[];
}

export interface PlotSeed {
  readonly id: string;
  readonly number: string;
  readonly label?: string | null;
  readonly ownerId: string;
  readonly blockId: string;
  readonly way: Way;
  readonly areaHa: number;
  readonly varietyDays: number;
  readonly teams?: Season['teams'];
  readonly basalAdvised?: boolean;
}

/** Settings of a scheme that are kept as one piece of JSON. */
export interface SchemeSettings {
  readonly languages: readonly string[];
  readonly officer: { readonly name: string; readonly phone: string };
  /** Local minutes since midnight; no reminder between them. `from` may be later than `to`: over midnight. */
  readonly quiet: { readonly fromMinute: number; readonly toMinute: number };
  /** Local minute of the day from which reminders go out. */
  readonly remindFromMinute: number;
  /** The scheme's own unit of area. */
  readonly areaUnit?: AreaUnit;
  readonly restDays?: RestDays;
  readonly climate?: Climate;
  readonly nutrients?: SchemeNutrients;
  /** Canals by the blocks' ids in the file; a block without one is missing. */
  readonly canals?: Readonly<Record<string, Canal & CanalHours>>;
  /** The weekday, 1 for Monday, on which agents are told how their blocks are; Monday when not given. */
  readonly digestOn?: number;
  /** What is recorded on numbered screens is confirmed by a text as well. */
  readonly textAfterScreens?: true;
  readonly pricePerPart?: PricePerPart;
  /** Their blocks by the ids of the file. */
  readonly sharedTeams?: readonly SharedTeam[];
  /** The scheme's own figures in place of the rulebook's. */
  readonly rulebook?: RulebookOverrides;
}

export interface SchemeSeed {
  readonly id: string;
  readonly name: string;
  /** What a new grower texts after JOIN. */
  readonly code: string;
  readonly timeZone: string;
  /** Two letters (ISO 3166): how numbers without a country code are read. */
  readonly country: string;
  /** The day on which the scheme is first loaded; a later planting keeps the first. */
  readonly loadedOn: Day;
  readonly settings: SchemeSettings;
  readonly blocks: readonly BlockSeed[];
  readonly people: readonly PersonSeed[];
  readonly plots: readonly PlotSeed[];
}
