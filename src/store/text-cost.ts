/** What a text costs when it is queued or answered: its parts at the scheme's price of that time. */
import type { PricePerPart } from '../scheme/group-section.ts';
import { priceOfParts } from '../scheme/price.ts';

/** A price as decimal text; both null where the scheme names none. */
export interface Cost {
  readonly price: string | null;
  readonly currency: string | null;
}

/** The cost of so many parts. */
export function costOf(parts: number, price: PricePerPart | null): Cost {
  if (price === null) return { price: null, currency: null };
  return { price: priceOfParts(parts, price.amount), currency: price.currency };
}
