/** `npm run -s sum -- NAME …`: the field's sums for an agronomist, one line of JSON each. A sum's own options are in sums/. */
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { isRefusal, type Refusal } from '../agronomy/sums/sum.ts';
import { schemeBook } from './scheme-book.ts';
import { GERMINATION } from './sums/germination.ts';
import { LEVEL } from './sums/level.ts';
import { MONTH_NEED } from './sums/month-need.ts';
import { NUTRIENTS } from './sums/nutrients.ts';
import { PHASES } from './sums/phases.ts';
import { RAIN } from './sums/rain.ts';
import { SEED } from './sums/seed.ts';
import { COMMON_REFUSALS, type SumCommand } from './sums/sum-command.ts';
import { WATER } from './sums/water.ts';
import { WORK } from './sums/work.ts';

/** Every sum by the name it is called with. */
export const SUMS: Readonly<Record<string, SumCommand>> = {
  level: LEVEL,
  seed: SEED,
  germination: GERMINATION,
  work: WORK,
  phases: PHASES,
  water: WATER,
  'month-need': MONTH_NEED,
  rain: RAIN,
  nutrients: NUTRIENTS,
};

const REFUSED = 2;

/** Prints the sum as JSON; 2, with a line on stderr, for a name that is not known or input that no sum can be made of. */
export function sumCommand(args: readonly string[]): number {
  const [name = '', ...rest] = args;
  const sum = Object.hasOwn(SUMS, name) ? SUMS[name] : undefined;
  if (!sum) return complain([`sum: "${name}" is none of: ${Object.keys(SUMS).join(', ')}`]);
  const { scheme, others } = withoutScheme(rest);
  const own = scheme === null ? { ok: true as const, book: DEFAULT_RULEBOOK } : schemeBook(scheme);
  if (!own.ok) return complain(own.mistakes);
  const result = sum.run(others, own.book);
  if (isRefusal(result)) {
    return complain([`sum ${name}: ${inWords(result, sum)}`]);
  }
  const { assumptions, sources, ...numbers } = result;
  console.log(JSON.stringify({ sum: name, ...numbers, assumptions, sources }, withoutNoise));
  return 0;
}

/** Refusals of how the sum was called, rather than of a value: they show how it is called. */
const OF_THE_CALL = /^(option|word|numbers)-|-missing$/;

function inWords({ refused, what }: Refusal, { refusals, usage }: SumCommand): string {
  const meaning = refusals[refused] ?? COMMON_REFUSALS[refused] ?? refused;
  const said = `${what} ${meaning}`.trim();
  return OF_THE_CALL.test(refused) ? `${said}; use: ${usage}` : said;
}

/** `--scheme FILE`, which every sum takes, and the rest. */
function withoutScheme(args: readonly string[]): { scheme: string | null; others: readonly string[] } {
  const at = args.indexOf('--scheme');
  if (at < 0) return { scheme: null, others: args };
  return { scheme: args[at + 1] ?? '--scheme without a file', others: args.toSpliced(at, 2) };
}

/** 0.30000000000000004 is printed as 0.3. */
const withoutNoise = (_: string, value: unknown) =>
  typeof value === 'number' ? Number(value.toPrecision(12)) : value;

function complain(lines: readonly string[]): number {
  for (const line of lines) console.error(line);
  return REFUSED;
}
