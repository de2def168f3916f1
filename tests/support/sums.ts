/** For tests of field sums: a result that must be one, and the name of a refusal. */
import { isRefusal, type Refusal } from '../../src/agronomy/sums/sum.ts';

/** The result; a test whose input is refused is broken and throws. */
export function made<T extends object>(result: T | Refusal): T {
  if (isRefusal(result)) throw new Error(`refused: ${result.refused} ${result.what}`);
  return result;
}

/** "area-zero: 0"; null when nothing is refused. */
export const refusedAs = (result: object): string | null =>
  isRefusal(result) ? `${result.refused}: ${result.what}` : null;
