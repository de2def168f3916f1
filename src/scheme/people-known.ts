/** What a scheme knows before a file of people is read: its blocks, growers and open plots. */
import type { JoinWay } from '../agronomy/season.ts';
import type { AreaUnit } from './area-unit.ts';
import { bareName } from './person-name.ts';

export interface KnownGrower {
  readonly id: string;
  readonly name: string;
  /** In E.164 form. */
  readonly phones: readonly string[];
}

export interface KnownPlot {
  readonly ownerId: string;
  readonly number: string;
  readonly label: string | null;
  readonly blockId: string;
  readonly areaHa: number;
}

export interface KnownBlock {
  readonly id: string;
  readonly name: string;
  /** Its id in the scheme's file. */
  readonly fileId: string;
  readonly way?: JoinWay;
}

export interface KnownPeople {
  readonly blocks: readonly KnownBlock[];
  readonly languages: readonly string[];
  readonly areaUnit?: AreaUnit;
  /** Days of the variety where a row tells none. */
  readonly varietyDays: number;
  readonly growers: readonly KnownGrower[];
  /** Plots with an open season, also those of people who are no growers. */
  readonly plots: readonly KnownPlot[];
  /** Everyone's phones, by their id: a plot's number is unique on each of its owner's. */
  readonly phonesOf: ReadonlyMap<string, readonly string[]>;
}

/** One grower is one name on one phone. */
export const growerKey = (phone: string, name: string) => `${phone} ${bareName(name)}`;
