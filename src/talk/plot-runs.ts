/** Numbers of plots as they are texted, as short as they can be. */

/** Fewer than these in a row are as short one by one. */
const SHORTEST_RUN = 3;

/** `plotRuns(['1', '2', '3', '4', '7'])` is "1-4 7". */
export function plotRuns(numbers: readonly string[]): string {
  const runs: string[][] = [];
  for (const number of numbers) {
    const run = runs.at(-1);
    if (run && Number(number) === Number(run.at(-1)) + 1) run.push(number);
    else runs.push([number]);
  }
  const written = runs.map((run) => (run.length < SHORTEST_RUN ? run.join(' ') : `${run[0]}-${run.at(-1)}`));
  return written.join(' ');
}
