/** A plot as a conversation knows it: its place, its open season, and what was reported of it. */
import type { Rain, Report, Season } from '../agronomy/season.ts';

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
