/** Texts, parts and prices summed by day, by block and by kind. Knows no phone: rows come with the names they are summed under. */
import { sumOfPrices } from '../../scheme/price.ts';

export const KINDS = ['reply', 'reminder', 'broadcast', 'digest', 'delivery summary', 'other'] as const;
export type Kind = (typeof KINDS)[number];

/** What keys in the outbox begin with, and the kind that it tells. */
const BEGINNINGS: readonly (readonly [string, Kind])[] = [
  ['reply:', 'reply'],
  ['reminder:', 'reminder'],
  ['whose:', 'reminder'],
  ['broadcast:', 'broadcast'],
  ['digest:', 'digest'],
  ['delivered:', 'delivery summary'],
];

/** A second text to a phone that was out of reach is of the same kind as the first. */
const AGAIN = 'again:';

/** The kind of a text by its key; an answer has none. `kindOf('digest:x:2027-03-08')` is "digest". */
export function kindOf(key: string | null): Kind {
  if (key === null) return 'reply';
  const first = key.startsWith(AGAIN) ? key.slice(AGAIN.length) : key;
  return BEGINNINGS.find(([beginning]) => first.startsWith(beginning))?.[1] ?? 'other';
}

/** One text that the carrier took, under the names that it is summed under. */
export interface LedgerText {
  readonly day: string;
  readonly block: string;
  readonly kind: Kind;
  readonly parts: number;
  readonly carrierParts: number | null;
  readonly price: string | null;
  readonly currency: string | null;
}

export interface LedgerSum {
  readonly texts: number;
  readonly parts: number;
  /** The carrier's own count, of those texts of which it told. */
  readonly carrierParts: number;
  /** How many those are. */
  readonly carrierTold: number;
  /** Decimal text by currency. */
  readonly price: Readonly<Record<string, string>>;
  /** Texts for which no price was known. */
  readonly unpriced: number;
}

/** Sums that grow text by text, so that a long span needs no more memory than a short one. */
export interface Ledger {
  add(texts: readonly LedgerText[]): void;
  readonly total: () => LedgerSum;
  /** By name, in the order in which names first came. */
  readonly by: (what: 'day' | 'block' | 'kind') => ReadonlyMap<string, LedgerSum>;
}

const NOTHING: LedgerSum = { texts: 0, parts: 0, carrierParts: 0, carrierTold: 0, price: {}, unpriced: 0 };

/** A ledger without texts. */
export function emptyLedger(): Ledger {
  let total = NOTHING;
  const sums = {
    day: new Map<string, LedgerSum>(),
    block: new Map<string, LedgerSum>(),
    kind: new Map<string, LedgerSum>(),
  };
  const add = (text: LedgerText) => {
    total = plus(total, text);
    for (const what of ['day', 'block', 'kind'] as const)
      sums[what].set(text[what], plus(sums[what].get(text[what]) ?? NOTHING, text));
  };
  return { add: (texts) => texts.forEach(add), total: () => total, by: (what) => sums[what] };
}

function plus(sum: LedgerSum, { parts, carrierParts, price, currency }: LedgerText): LedgerSum {
  return {
    texts: sum.texts + 1,
    parts: sum.parts + parts,
    carrierParts: sum.carrierParts + (carrierParts ?? 0),
    carrierTold: sum.carrierTold + (carrierParts === null ? 0 : 1),
    price:
      price === null || currency === null
        ? sum.price
        : { ...sum.price, [currency]: sumOfPrices([sum.price[currency] ?? '0', price]) },
    unpriced: sum.unpriced + (price === null ? 1 : 0),
  };
}
