/** Reads what stands behind `sum NAME`: options of a kind each, and bare words or numbers, which may be negative. */
import { parseArgs } from 'node:util';
import { type Refusal, refusal } from '../../agronomy/sums/sum.ts';
import { type Day, parseDay } from '../../plan/day.ts';

/** One option: how its text is read (null: it cannot be), what it has to be, and whether the sum needs it. */
export interface Option<T = unknown, Needed extends boolean = boolean> {
  readonly read: (text: string) => T | null;
  readonly what: string;
  readonly needed: Needed;
  /** It may come again: it reads lists, which are joined. */
  readonly many?: true;
}

type Options = Readonly<Record<string, Option>>;
type Values<O extends Options> = {
  readonly [K in keyof O]: O[K] extends Option<infer T, infer N>
    ? N extends true
      ? T
      : T | undefined
    : never;
};
export interface Given<O extends Options> {
  readonly values: Values<O>;
  /** What stands there without an option, as it was written. */
  readonly bare: readonly string[];
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;

/** "12", "0.4", "-3"; null for anything else. */
export const readNumber = (text: string): number | null => (NUMBER.test(text) ? Number(text) : null);

const aNumber = { read: readNumber, what: 'a number such as 0.4' };
const aDay = { read: parseDay, what: 'a day such as 2027-03-01' };
export const numberNeeded: Option<number, true> = { ...aNumber, needed: true };
export const numberIfGiven: Option<number, false> = { ...aNumber, needed: false };
export const dayNeeded: Option<Day, true> = { ...aDay, needed: true };
export const dayIfGiven: Option<Day, false> = { ...aDay, needed: false };

const among = <const T extends string>(words: readonly T[]) => ({
  read: (text: string) => words.find((word) => word === text) ?? null,
  what: words.join(', '),
});
export const wordNeeded = <const T extends string>(words: readonly T[]): Option<T, true> => ({
  ...among(words),
  needed: true,
});
export const wordIfGiven = <const T extends string>(words: readonly T[]): Option<T, false> => ({
  ...among(words),
  needed: false,
});

/** Options and bare words; refuses an option that is not known, missing, there twice or cannot be read, naming it as written. */
export function readOptions<const O extends Options>(
  args: readonly string[],
  options: O,
): Given<O> | Refusal {
  const split = splitArguments(args, options);
  if ('refused' in split) return split;
  const read: Record<string, unknown> = {};
  for (const [name, option] of Object.entries(options)) {
    const texts = split.texts[name] ?? [];
    if (texts.length === 0 && option.needed) return refusal('option-missing', `--${name} (${option.what})`);
    if (texts.length > 1 && !option.many) return refusal('option-twice', `--${name}`);
    const values = texts.map((text) => option.read(text));
    const wrong = values.indexOf(null);
    if (wrong >= 0) return refusal('option-unreadable', `--${name} ${texts[wrong]} (write ${option.what})`);
    if (values.length > 0) read[name] = option.many ? values.flat() : values[0];
  }
  return { values: read as Values<O>, bare: split.bare };
}

interface Split {
  readonly texts: Readonly<Record<string, readonly string[] | undefined>>;
  readonly bare: readonly string[];
}

/** A negative number is no option: it goes through with a true minus sign, which no option begins with. */
const hidden = (argument: string) => argument.replace(/^-(?=\.?\d)/, '\u2212');
const shown = (argument: string) => argument.replace(/^\u2212/, '-');

/** Every time that an option comes, so that a second one is not lost. */
const MANY = { type: 'string', multiple: true } as const;

function splitArguments(args: readonly string[], options: Options): Split | Refusal {
  const kinds = Object.fromEntries(Object.keys(options).map((name) => [name, MANY]));
  try {
    const found = parseArgs({ args: args.map(hidden), options: kinds, allowPositionals: true });
    const texts = Object.entries(found.values).map(
      ([name, given]) => [name, [given].flat().map((text) => shown(String(text)))] as const,
    );
    return { texts: Object.fromEntries(texts), bare: found.positionals.map(shown) };
  } catch (error) {
    if (error instanceof TypeError) return refusal('option-unknown', error.message.split('. ')[0] ?? '');
    throw error;
  }
}

/** Bare words as numbers; refuses the first that is none, and none at all. */
export function readNumbers(bare: readonly string[]): readonly number[] | Refusal {
  if (bare.length === 0) return refusal('numbers-missing', 'none given');
  const wrong = bare.find((text) => readNumber(text) === null);
  return wrong === undefined ? bare.map(Number) : refusal('not-a-number', wrong);
}

/** Refuses bare words where the sum takes none. */
export const noneLeft = (bare: readonly string[]): Refusal | null =>
  bare[0] === undefined ? null : refusal('word-left', bare[0]);
