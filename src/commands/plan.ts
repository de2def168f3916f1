/** `plan FILE.json`: reads one plot, prints its plan as JSON. */
import { readFileSync } from 'node:fs';
import { planPlot } from '../agronomy/plan-plot.ts';
import { planJson, readPlotFile } from '../agronomy/plot-file.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { complain } from './complain.ts';

/** Prints the plan of the plot in the named file ("-" reads stdin); returns the exit code. */
export function planCommand(args: readonly string[]): number {
  const [path] = args;
  if (args.length !== 1 || path === undefined) return complain('usage: npm run -s plan -- FILE.json');
  const json = readJson(path);
  if ('mistake' in json) return complain(json.mistake);
  const plot = readPlotFile(json.value);
  if (!plot.ok) return complain(...plot.mistakes.map((mistake) => `${path}: ${mistake}`));
  console.log(JSON.stringify(planJson(planPlot(plot.season, DEFAULT_RULEBOOK, plot.today))));
  return 0;
}

function readJson(path: string): { value: unknown } | { mistake: string } {
  try {
    return { value: JSON.parse(readFileSync(path === '-' ? 0 : path, 'utf8')) };
  } catch (error) {
    return { mistake: `${path}: ${error instanceof Error ? error.message : 'cannot be read'}` };
  }
}
