/** What is known of one crop on one plot: its way of growing, its wishes, and what its grower has reported. */
import type { Day } from '../plan/day.ts';

/** Every step of the work, in the order of the field. */
export const ACTIVITIES = [
  'clear',
  'soak',
  'plough',
  'rough-level',
  'flood',
  'manure',
  'puddle',
  'basal',
  'level',
  'pregerminate',
  'sow-nursery',
  'transplant',
  'sow-direct',
  'gap-fill',
  'weed',
  'topdress',
  'drain',
  'harvest',
] as const;

export type Activity = (typeof ACTIVITIES)[number];
export type Stage = 'started' | 'finished';

/** What a way of growing consists of, and every value that each part of it may have. */
export const WAY_VALUES = {
  tillage: ['hoe', 'animals', 'two-wheel', 'none'],
  establishment: ['transplant', 'wet-seed'],
  nursery: ['wet-bed', 'dry-bed', 'mat'],
  /** Varieties that flower by day length, and crops of the cool season, ripen by a local date rather than by their days. */
  ripens: ['by-days', 'by-local-date'],
  water: ['irrigated', 'rain-fed'],
} as const;

export type Way = { readonly [K in keyof typeof WAY_VALUES]: (typeof WAY_VALUES)[K][number] };

/** How plots are grown where nothing else is said. */
export const USUAL_WAY: Way = {
  water: 'irrigated',
  tillage: 'two-wheel',
  establishment: 'transplant',
  nursery: 'wet-bed',
  ripens: 'by-days',
};

/** The parts of a way that a block gives to those who join in it. */
export type JoinWay = Partial<Omit<Way, 'tillage'>>;

/** Figures texted with a report. Lengths in cm, amounts as texted. */
export interface Measures {
  readonly depthCm?: number;
  readonly heightCm?: number;
  readonly spotsCm?: readonly number[];
  readonly amount?: { readonly value: number; readonly unit: string };
  /** The part of the plot that is done, between 0 and 1, where work is half done. */
  readonly share?: number;
}

/** "Activity X was started / finished on day D"; a null day means done, day unknown. */
export interface Report {
  readonly activity: Activity;
  readonly stage: Stage;
  readonly on: Day | null;
  readonly measures?: Measures;
  /** Id of the kept report whose day this one corrects: while this one stands, that one does not count. */
  readonly corrects?: string;
}

/** A span of days; null means open on that side. */
export interface Span {
  readonly from: Day | null;
  readonly to: Day | null;
}

/** Days on which something comes to the plot, both included. */
export interface Turn {
  readonly from: Day;
  readonly to: Day;
}

/** Days on which nobody works: weekdays from 1 (Monday) to 7 (Sunday), and single days. */
export interface RestDays {
  readonly weekdays: readonly number[];
  readonly days: readonly Day[];
}

/** Latitudes and temperatures that a place where rice grows can have. */
export const CLIMATE_BOUNDS = {
  latitude: { least: -60, most: 60 },
  temperatureC: { least: -20, most: 50 },
} as const;

/**
 * Usual weather of the place, twelve months from January: mean temperature in °C, rain in mm a month, ETo in mm a day. Where
 * the ETo is not known, it can be found from the latitude (degrees, south under 0) and a day's lowest and highest temperature.
 */
export interface Climate {
  readonly latitude?: number;
  readonly meanTemperatureC?: readonly number[];
  readonly minTemperatureC?: readonly number[];
  readonly maxTemperatureC?: readonly number[];
  readonly rainMm?: readonly number[];
  readonly etoMmPerDay?: readonly number[];
  /** Where the figures come from. */
  readonly source: string;
}

/** Rain that was measured on the plot, in mm, on one day. */
export interface Rain {
  readonly on: Day;
  readonly mm: number;
  /** Id of the kept rain that this figure stands in for. */
  readonly corrects?: string;
}

/** Days from sowing to harvest that a variety of rice can have. */
export const VARIETY_DAYS = { least: 60, most: 240 } as const;

export interface Season {
  readonly way: Way;
  readonly areaHa: number;
  /** Days from sowing to harvest of the variety, as its seller gives them. */
  readonly varietyDays: number;
  /** When the plot's block has water in its canal. */
  readonly blockWater: Span;
  /** The plot's turn at the canal for flooding, as its grower was told. */
  readonly waterTurn?: Turn;
  /** When the shared tractor or animals come, and for which work. */
  readonly teamVisit?: Turn & { readonly activity: Activity };
  /** When the group wants this plot to be planted. */
  readonly target: Span;
  /** Teams working at once: people with hoes, pairs of animals, tillers; per activity where they differ. */
  readonly teams?: Partial<Record<Activity, number>>;
  /** Whether soil or recommendation asks for fertiliser at the last puddling, and for top-dressing. */
  readonly basalAdvised?: boolean;
  readonly restDays?: RestDays;
  readonly climate?: Climate;
  /** The local start date of the rains: what falls from this day on counts. */
  readonly rainFrom?: Day;
  readonly rains?: readonly Rain[];
  /** The usual local harvest date, for a crop that ripens by it. */
  readonly harvestOn?: Day;
  /** The grower has told that there is no water, or nothing to plough with, before this day. */
  readonly waterFrom?: Day;
  readonly machineFrom?: Day;
  /** The plot is under flood water till this day: no work on it before. */
  readonly floodedUntil?: Day;
  /** A planted crop was lost on or before this day: the plot is puddled, levelled and planted again. */
  readonly cropLostOn?: Day;
  /** A nursery sown on or before this day was given up for a fresh one. */
  readonly nurseryGivenUpOn?: Day;
  /** The grower chose to plant old seedlings rather than to sow afresh. */
  readonly oldSeedlingsAccepted?: boolean;
  readonly reports: readonly Report[];
}

/** A season changed, or taken back to what it was: null takes a field away. */
export type SeasonReset = { readonly [K in keyof SeasonChange]: SeasonChange[K] | null };

/** A choice that changes a season; fields that are missing stay as they are. */
export type SeasonChange = Partial<
  Pick<
    Season,
    | 'target'
    | 'way'
    | 'varietyDays'
    | 'nurseryGivenUpOn'
    | 'oldSeedlingsAccepted'
    | 'waterFrom'
    | 'machineFrom'
    | 'floodedUntil'
    | 'cropLostOn'
    | 'harvestOn'
  >
>;

/** The season with a change made, or taken back. */
export function changedSeason<T extends object>(season: T, change: SeasonReset): T {
  const kept = Object.entries({ ...season, ...change }).filter(([, value]) => value !== null);
  return Object.fromEntries(kept) as T;
}
