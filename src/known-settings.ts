/** Variables that look like settings and are none: a slip in a name would else change nothing, without a word. */
import { slipsBetween } from './hear/nearness.ts';

const BEGINNING = 'BUNDLINE_';

/** A mistake for each variable that begins as our settings do and is not known, with the nearest name that is. */
export function unknownSettings(
  given: Readonly<Record<string, string | undefined>>,
  known: readonly string[],
): readonly string[] {
  return Object.keys(given)
    .filter((name) => name.startsWith(BEGINNING) && !known.includes(name))
    .map((name) => `${name} is no setting; the nearest is ${nearest(name, known)}`);
}

/** The known name with the fewest slips; the first of several. */
function nearest(name: string, known: readonly string[]): string {
  const slipsTo = (other: string) => slipsBetween(name, other, Math.max(name.length, other.length));
  const [first = '', ...others] = known;
  return others.reduce((best, other) => (slipsTo(other) < slipsTo(best) ? other : best), first);
}
