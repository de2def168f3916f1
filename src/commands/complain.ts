/** What a command says when it cannot do what was asked. */

/** Writes the lines to standard error; 2 is the status for wrong arguments and files. */
export function complain(...lines: readonly string[]): number {
  for (const line of lines) console.error(line);
  return 2;
}
