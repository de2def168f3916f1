/** Numbers that plots are called by. */

/** The wanted number, or where it is taken the lowest from 1 that is not. */
export function freeNumber(wanted: string | null, taken: ReadonlySet<string>): string {
  if (wanted !== null && !taken.has(wanted)) return wanted;
  let number = 1;
  while (taken.has(String(number))) number += 1;
  return String(number);
}
