/** What the line understood from one text: the contract between hearing and talking. Plain data, ready for JSON. */
import type { Activity, Measures, Stage } from '../agronomy/season.ts';

/** "YYYY-MM-DD". */
export type IsoDate = string;

/** Fields that were filled in rather than said. */
export type Assumed = 'stage' | 'on' | 'plots' | 'year' | 'month' | 'activity' | 'unit';

export type Trouble = 'no-water' | 'no-seed' | 'no-machine' | 'flooded-out' | 'pests' | 'other';
/** What is gone as a whole: the seedlings or the seed of a nursery, or the rice that stood in a plot. */
export type Lost = 'seedlings' | 'crop';
export type RainUnit = 'mm' | 'cm' | 'inch';
export type SumName = 'level' | 'seed' | 'germination' | 'nutrients' | 'water' | 'rain' | 'work' | 'phases';

/** Sums of an area: a bare figure may be hectares; one with a unit that is none of area, or not known, is not. */
export const OF_AREAS: readonly SumName[] = ['seed', 'water', 'work'];

interface Base {
  readonly assumed: readonly Assumed[];
}

export interface ReportReading extends Base {
  readonly kind: 'report';
  readonly activity: Activity;
  readonly stage: Stage;
  /** Plot numbers or labels as said; ["all"] for all; [] when not said. */
  readonly plots: readonly string[];
  /** The day it was done: as said, else today with "on" in `assumed`; null when said to be unknown ("don't know when"). */
  readonly on: IsoDate | null;
  /**
   * As said. Of half-done work (stage `started`): `share` when a part was named ("half", "3/4 of", "50%"), `amount` when an
   * area was ("half acre"); neither for "most of" or "a bit".
   */
  readonly measures: Measures;
  /** Picked from a list that named it: meant as it stands, whatever a word would mean on the plot. Never set by hearing. */
  readonly picked?: true;
}

export interface NotDoneReading extends Base {
  readonly kind: 'not-done';
  readonly activity: Activity | null;
  readonly plots: readonly string[];
}

export interface IntendReading extends Base {
  readonly kind: 'intend';
  readonly activity: Activity;
  readonly plots: readonly string[];
  readonly on: IsoDate | null;
}

export interface TroubleReading extends Base {
  readonly kind: 'trouble';
  readonly what: Trouble;
  readonly plots: readonly string[];
  /** The day it is expected to end, when said ("no water until 20 May"). */
  readonly until: IsoDate | null;
  /** Set when all is gone ("rats ate all the seedlings"); absent for a part of it, for yellow leaves, and in doubt. */
  readonly lost?: Lost;
  /** The trouble has ended ("water is back", "tractor repaired"). */
  readonly over?: true;
}

export interface AskReading extends Base {
  readonly kind: 'ask';
  readonly about: 'next' | 'dates' | 'why' | 'help' | 'plots';
  /** With `dates` (or `why`): the activity asked about ("when plough plot 3?"). */
  readonly activity?: Activity;
  readonly plots: readonly string[];
}

/** What the numbers in a request for a sum stand for. */
export interface SumFigures {
  /** Plots named with the word for plot, or before a colon. */
  readonly plots: readonly string[];
  /** Numbers that nothing in the text explains, in order: seeds, nutrients, or a plot after all. */
  readonly bare: readonly number[];
  /** Lengths, in cm; of `level` all its numbers. */
  readonly depthsCm?: readonly number[];
  /** Areas in the text, together, in hectares. */
  readonly areaHa?: number;
  readonly percent?: number;
  /** Something stood among the depths of a row that is none: they are not to be used. */
  readonly torn?: true;
  /** A word behind a figure that is no unit of area that the language knows. */
  readonly unknownUnit?: string;
  /** Hectares in the unit that the figures of a need are for ("80 40 40 per acre"). */
  readonly perHa?: number;
  readonly teams?: number;
  /** Tonnes of manure. */
  readonly manureT?: number;
  /** January is 1. */
  readonly month?: number;
}

export interface SumReading extends Base, Partial<SumFigures> {
  readonly kind: 'sum';
  readonly sum: SumName;
  /** The numbers as texted, in order, without the plot's. Of rain: [0] for "no rain today", [] for "heavy rain". */
  readonly values: readonly number[];
  readonly plots: readonly string[];
  /** Of rain: the day said, never after today; absent when none was. */
  readonly on?: IsoDate;
  /** Of work: which was named. */
  readonly activity?: Activity;
  /** Of rain: the unit of the values; absent when none was said. */
  readonly unit?: RainUnit;
}

export interface AnswerReading extends Base {
  readonly kind: 'answer';
  readonly answer: 'yes' | 'no' | { readonly pick: number };
}

export interface AccountReading extends Base {
  readonly kind: 'account';
  readonly what: 'join' | 'language' | 'stop' | 'start' | 'forget' | 'name' | 'phone';
  /** The code after JOIN or PHONE, the name, the language: as texted; absent when not said. */
  readonly text?: string;
}

export interface UndoReading extends Base {
  readonly kind: 'undo';
}

export interface AgentReading extends Base {
  readonly kind: 'agent';
  readonly what:
    | 'flood'
    | 'tell'
    | 'ready'
    | 'late'
    | 'turns'
    | 'tiller'
    | 'add'
    /** Heard on an agent's phone only. */
    | 'move'
    | 'remove'
    | 'steps'
    | 'digest'
    | 'more'
    | 'stopped'
    | 'code';
  readonly block?: string;
  readonly on?: IsoDate | null;
  readonly text?: string;
  readonly plots?: readonly string[];
}

export type Reading =
  | ReportReading
  | NotDoneReading
  | IntendReading
  | TroubleReading
  | AskReading
  | SumReading
  | AnswerReading
  | AccountReading
  | UndoReading
  | AgentReading;

/** Why a text could not be read; `choices` are the possible meanings, likeliest first, to be put as a numbered question. */
export interface Unclear {
  readonly why:
    | 'nothing-known'
    | 'two-meanings'
    | 'impossible-date'
    | 'future-date'
    | 'which-plot'
    | 'which-activity'
    | 'which-day'
    | 'empty'
    /** A greeting or thanks and nothing else. */
    | 'greeting'
    | 'too-long';
  readonly choices: readonly Reading[];
  /** The stretch of text that was not understood (for "31 April is not a day"). */
  readonly said?: string;
}

/** Readings of one text, in the order said. When `unclear` is set, `readings` is empty: nothing is half-recorded. */
export interface Heard {
  readonly readings: readonly Reading[];
  readonly unclear: Unclear | null;
}
