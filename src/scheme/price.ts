/** Prices as decimal text: parts times a price, and sums, to the last digit. Knows no currency and never rounds. */

/** A decimal number as whole units of its last place: 0.04 is 4 of hundredths. */
interface Decimal {
  readonly units: bigint;
  readonly places: number;
}

/** What so many parts cost: the price is taken as it is written in the scheme's file. `priceOfParts(3, 0.1)` is "0.3". */
export function priceOfParts(parts: number, amount: number): string {
  const { units, places } = decimalOf(String(amount));
  return textOf({ units: units * BigInt(parts), places });
}

/** The sum of prices. `sumOfPrices(['0.1', '0.20'])` is "0.3"; of none it is "0". Throws for what is no decimal number. */
export function sumOfPrices(prices: Iterable<string>): string {
  let sum: Decimal = { units: 0n, places: 0 };
  for (const price of prices) sum = added(sum, decimalOf(price));
  return textOf(sum);
}

/** A price as people read it, with two decimals at least: `shownPrice('0.2')` is "0.20", "0.035" stays. */
export function shownPrice(price: string): string {
  const [whole = '', fraction = ''] = price.split('.');
  return `${whole}.${fraction.padEnd(2, '0')}`;
}

function added(a: Decimal, b: Decimal): Decimal {
  const places = Math.max(a.places, b.places);
  return { units: unitsAt(a, places) + unitsAt(b, places), places };
}

const unitsAt = ({ units, places }: Decimal, more: number): bigint => units * 10n ** BigInt(more - places);

/** Reads "12", "0.04" and "1e-7", which is how small numbers are written out. */
function decimalOf(text: string): Decimal {
  const read = /^(\d+)(?:\.(\d+))?(?:e-(\d+))?$/.exec(text);
  if (read === null) throw new Error(`"${text}" is no price`);
  const [, whole = '', fraction = '', smaller = '0'] = read;
  return { units: BigInt(whole + fraction), places: fraction.length + Number(smaller) };
}

/** Without noughts behind the last digit that counts. */
function textOf({ units, places }: Decimal): string {
  const digits = units.toString().padStart(places + 1, '0');
  const at = digits.length - places;
  const fraction = digits.slice(at).replace(/0+$/, '');
  return fraction === '' ? digits.slice(0, at) : `${digits.slice(0, at)}.${fraction}`;
}
