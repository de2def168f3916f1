/** Plans per second: the whole plan of a plot, against a general LP solver finding the same windows. */
import type { Highs } from 'highs';
import { networkOf } from '../agronomy/constraints.ts';
import { planPlot } from '../agronomy/plan-plot.ts';
import { problemOf } from '../agronomy/problem-of.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { ACTIVITIES, type Report, type Season, USUAL_WAY } from '../agronomy/season.ts';
import type { Network } from '../plan/network.ts';
import { solve } from '../plan/solve.ts';

const TODAY = 20_900;
const PLANS = 20_000;
const SOLVED_BY_LP = 10;

/** Microseconds per plan, and how many times faster than the LP solver. */
export async function benchPlans(): Promise<readonly string[]> {
  const seasons = Array.from({ length: 60 }, (_, index) => seasonAfter(index % 12, index));
  for (const season of seasons) for (let i = 0; i < 20; i++) planPlot(season, DEFAULT_RULEBOOK, TODAY);
  const started = performance.now();
  for (let i = 0; i < PLANS; i++) planPlot(seasons[i % seasons.length] as Season, DEFAULT_RULEBOOK, TODAY);
  const planUs = ((performance.now() - started) * 1000) / PLANS;
  const networks = seasons.map(networkFor).filter((network) => solve(network).breaches.length === 0);
  const windowsUs = timeWindows(networks);
  const lpUs = await timeLp(networks.slice(0, SOLVED_BY_LP));
  return [
    `plans: ${planUs.toFixed(0)} us a plot plan (windows alone ${windowsUs.toFixed(0)} us); the same windows by highs ${(lpUs / 1000).toFixed(1)} ms: ${(lpUs / planUs).toFixed(0)} times faster (floor 100)`,
  ];
}

/** A season that has come so far: the first steps reported, a day apart. */
function seasonAfter(steps: number, seed: number): Season {
  const field = ACTIVITIES.filter(
    (activity) => activity !== 'sow-direct' && activity !== 'manure' && activity !== 'basal',
  );
  const reports = field
    .slice(0, steps)
    .map((activity, index): Report => ({ activity, stage: 'finished', on: TODAY - 3 * (steps - index) }));
  return {
    way: USUAL_WAY,
    areaHa: 0.2 + (seed % 5) / 10,
    varietyDays: 110 + (seed % 4) * 10,
    blockWater: { from: TODAY - 30, to: TODAY + 90 },
    target: { from: TODAY + 10, to: TODAY + 60 },
    reports,
  };
}

function networkFor(season: Season): Network {
  return networkOf(problemOf(season, DEFAULT_RULEBOOK, TODAY, TODAY));
}

function timeWindows(networks: readonly Network[]): number {
  const started = performance.now();
  for (let i = 0; i < PLANS; i++) solve(networks[i % networks.length] as Network);
  return ((performance.now() - started) * 1000) / PLANS;
}

/** Smallest and largest day of every point, one linear programme each. */
async function timeLp(networks: readonly Network[]): Promise<number> {
  const load = (await import('highs')).default as unknown as () => Promise<Highs>;
  const highs = await load();
  const rows = networks.map(constraints);
  const started = performance.now();
  for (const [index, { points }] of networks.entries()) {
    for (let point = 1; point < points; point++) {
      for (const sense of ['Minimize', 'Maximize']) highs.solve(`${sense}\n obj: x${point}\n${rows[index]}`);
    }
  }
  return ((performance.now() - started) * 1000) / networks.length;
}

function constraints({ points, gaps }: Network): string {
  const rows = gaps.flatMap(({ from, to, lo, hi }, index) => [
    ...(lo === null ? [] : [` a${index}: x${to} - x${from} >= ${lo}`]),
    ...(hi === null ? [] : [` b${index}: x${to} - x${from} <= ${hi}`]),
  ]);
  const bounds = Array.from({ length: points }, (_, point) =>
    point === 0 ? ' x0 = 0' : ` -100000 <= x${point} <= 100000`,
  );
  return `Subject To\n${rows.join('\n')}\nBounds\n${bounds.join('\n')}\nEnd\n`;
}
