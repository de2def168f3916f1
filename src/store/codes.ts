/** One-time codes for what an agent confirms: by chance in service, counted in a simulated season. */
import { randomInt } from 'node:crypto';

/** Makes a code of five digits, none of them a leading zero: it is typed on a keypad. */
export type MakeCode = () => string;

const [LEAST, MOST] = [10_000, 100_000];

/** One of 90,000, each as likely as the others. */
export const randomCode: MakeCode = () => String(randomInt(LEAST, MOST));

/** Codes 10101, 10202 and on: for a simulated season only. */
export function countedCodes(): MakeCode {
  let count = 0;
  return () => {
    count += 1;
    return String(LEAST + ((count * 101) % (MOST - LEAST)));
  };
}
