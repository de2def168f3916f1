/** A text to be said, as data: the contract between talking and saying. */
import type { Day } from '../plan/day.ts';

/** A value put into a message: a number, a name as given, a day, a month, a list, or another message. */
export type Value = string | number | DayValue | MonthValue | ListValue | Message;

/** A day, said with its weekday ("Tue 9 Mar"). */
export interface DayValue {
  readonly day: Day;
}

/** A month, said by its name; January is 1. */
export interface MonthValue {
  readonly month: number;
}

/** Things joined as the language joins them ("1, 2 and 5"). */
export interface ListValue {
  readonly list: readonly Value[];
}

/** A key of the catalogue `locales/<lang>/messages.json` and the values of its placeholders. */
export interface Message {
  readonly key: string;
  readonly values?: Readonly<Record<string, Value>>;
}

/**
 * One text to a phone: sentences in order; those marked `spare` are left out, last first, when the text is too long, and only when
 * none of these is left the ones marked `last`.
 */
export interface Saying {
  readonly sentences: readonly (Message & { readonly spare?: boolean | 'last' })[];
}
