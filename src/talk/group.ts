/** What an agent's conversation may know beside the phone's own: the blocks the agent answers for, with their growers and plots. */
import type { Day } from '../plan/day.ts';
import type { Saying } from '../say/message.ts';
import type { Visit } from '../scheme/group/appointment.ts';
import type { PlotWorld } from './plot-world.ts';
import type { SchemeWorld } from './scheme-world.ts';

export type Block = SchemeWorld['blocks'][number];

export interface Grower {
  readonly id: string;
  readonly name: string;
  readonly lang: string;
  /** The first phone that takes texts; one that has opted out where there is no other; null without a phone. */
  readonly phone: string | null;
  /** No phone of this grower takes texts. */
  readonly stopped: boolean;
  /** That phone may be somebody else's by now: its reminders wait till somebody says whose it is. */
  readonly silent?: boolean;
}

export interface GroupPlot extends PlotWorld {
  /** The scheme's label, else the grower's name and the plot's number: one name in the whole scheme. */
  readonly name: string;
  readonly grower: Grower;
  /** What its grower was told last. */
  readonly water: Visit | null;
  readonly team: Visit | null;
  /** The day on which the line first planned it; null where that is not known. */
  readonly since: Day | null;
}

export interface GroupTrouble {
  readonly plotId: string;
  readonly what: string;
  readonly on: Day;
}

export interface Group {
  /** Blocks that the agent answers for, in the scheme's order. */
  readonly blocks: readonly Block[];
  /** Plots with an open season, block by block in canal order. */
  readonly plots: readonly GroupPlot[];
  /** Troubles told in the last week. */
  readonly troubles: readonly GroupTrouble[];
  /** Labels of the whole scheme in use, for a new plot. */
  readonly labels: readonly string[];
  /** Made by chance for this text: what a preview may ask for. */
  readonly freshCode: string;
  /** How many parts a text takes in a language. */
  partsOf(lang: string, saying: Saying): number;
  /** Whether a text is short enough for an answer to an agent. */
  fits(lang: string, saying: Saying): boolean;
  /** A phone number as people write it, in E.164 form; null when it is none. */
  readPhone(text: string): string | null;
}
