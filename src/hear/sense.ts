/** What one word or phrase can mean, and the stretch of a text that carries it. */
import type { Activity, Measures } from '../agronomy/season.ts';
import type { Form } from './forms.ts';
import type { Said } from './said-day.ts';

export type Role =
  | 'act'
  | 'verb'
  | 'thing'
  | 'mark'
  | 'stage'
  | 'plot'
  | 'join'
  | 'number'
  | 'ordinal'
  | 'ending'
  | 'offset'
  | 'either'
  | 'weekday'
  | 'monthName'
  | 'date'
  | 'unit'
  | 'measure'
  | 'trouble'
  | 'troubleAlone'
  | 'lasting'
  | 'troubleThing'
  | 'lacking'
  | 'over'
  | 'ended'
  | 'loss'
  | 'lossThing'
  | 'gone'
  | 'lossPart'
  | 'share'
  | 'sharePart'
  | 'percent'
  | 'rest'
  | 'rain'
  | 'ask'
  | 'askAlone'
  | 'sum'
  | 'sumAsk'
  | 'answer'
  | 'account'
  | 'optOut'
  | 'undo'
  | 'agent'
  | 'language'
  | 'tillage'
  | 'greeting'
  | 'intro'
  | 'signature'
  | 'article'
  | 'filler'
  | 'known';

export interface Sense {
  readonly role: Role;
  /** The list it stands in: an activity, a mark, a kind of trouble… */
  readonly value: string;
  readonly form?: Form;
  /** A number, an offset in days, a weekday 1-7, a month 1-12, a part of a whole, how many of them make a whole. */
  readonly n?: number;
  /** Activities, when a slip leaves several as near. */
  readonly several?: readonly Activity[];
}

export interface PlotsSaid {
  readonly ids: readonly string[];
  /** Said with the word for plot, so surely no other number. */
  readonly named: boolean;
  /** Set when the plots cannot be known ("3 plots", "all but 2"). */
  readonly puzzle?: boolean;
  /** Said with the word for several plots ("plots 1 and 2"). */
  readonly many?: boolean;
  /** After "on": a day as well as a plot. */
  readonly maybeDay?: boolean;
  /** Several plot words joined ("plot 1 and plot 2"): where the last one begins among `ids`. */
  readonly lastNamedAt?: number;
}

/** A stretch of the text: a word, a phrase, or a group such as a date or a list of plots. */
export interface Node {
  readonly senses: readonly Sense[];
  readonly from: number;
  readonly to: number;
  readonly raw: string;
  /** Set on marks of punctuation. */
  readonly mark?: string;
  readonly glued: boolean;
  readonly value?: number;
  readonly parts?: readonly number[];
  readonly label?: string;
  readonly said?: Said;
  readonly plots?: PlotsSaid;
  readonly measures?: Measures;
  /** A word in no list. */
  readonly strange?: boolean;
}

export function senseOf(node: Node | undefined, role: Role): Sense | undefined {
  return node?.senses.find((sense) => sense.role === role);
}

export function means(node: Node | undefined, role: Role, value: string): boolean {
  return node?.senses.some((sense) => sense.role === role && sense.value === value) ?? false;
}
