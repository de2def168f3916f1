/** Plans of the whole job against the main way's, per point; and a block planned anew when its water date changes. */
import { networkOf } from '../agronomy/constraints.ts';
import { planPlot } from '../agronomy/plan-plot.ts';
import { problemOf } from '../agronomy/problem-of.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { type Activity, type Report, type Season, USUAL_WAY } from '../agronomy/season.ts';
import { remindersFor } from '../talk/reminders-for.ts';

const TODAY = 20_900;
const PLANS = 640;
const BLOCKS = [1_000, 10_000] as const;
/** Everything is done so often; the fastest counts. */
const ROUNDS = 6;
const DONE: readonly Activity[] = [
  'clear',
  'soak',
  'plough',
  'rough-level',
  'flood',
  'sow-nursery',
  'puddle',
];
const WATER = { from: TODAY - 20, to: TODAY + 60 };

/** Rows for the whole job's plan and for a block. */
export function benchBlock(): Promise<readonly string[]> {
  const [main, whole, uneven] = [mainWay, wholeJob, withUneven].map(perPoint) as [Cost, Cost, Cost];
  const times = (cost: Cost) => (cost.nsPoint / main.nsPoint).toFixed(1);
  const rows = [
    `plan of the main way: ${told(main)}; of the whole job (rain-fed, rest days, warmth): ${told(whole)}: ${times(whole)} times per point (at most 5); one plot in seven uneven, its ways out searched for: ${told(uneven)}: ${times(uneven)} times`,
  ];
  const [small, large] = BLOCKS.map((plots) => ({ plots, ms: replanMs(plots) })) as [Block, Block];
  rows.push(
    `block planned anew after a water date: ${small.plots} plots ${small.ms.toFixed(0)} ms, ${large.plots} plots ${large.ms.toFixed(0)} ms: ratio ${(large.ms / small.ms).toFixed(1)} (at most 11)`,
  );
  return Promise.resolve(rows);
}

interface Cost {
  readonly points: number;
  readonly constraints: number;
  readonly usPlan: number;
  readonly nsPoint: number;
}
interface Block {
  readonly plots: number;
  readonly ms: number;
}

const told = ({ points, constraints, usPlan }: Cost) =>
  `${usPlan.toFixed(0)} us (${points} points, ${constraints} constraints)`;

/** Every plan is of a season of its own: nothing is there from the plan before. */
function perPoint(seasonAt: (index: number) => Season): Cost {
  const seasons = Array.from({ length: 64 }, (_, index) => seasonAt(index));
  for (const season of seasons) planPlot(season, DEFAULT_RULEBOOK, TODAY);
  const times = Array.from({ length: ROUNDS }, () => {
    const started = performance.now();
    for (let i = 0; i < PLANS; i++)
      planPlot({ ...(seasons[i % seasons.length] as Season) }, DEFAULT_RULEBOOK, TODAY);
    return ((performance.now() - started) * 1000) / PLANS;
  });
  const usPlan = Math.min(...times);
  const networks = seasons.map((season) => networkOf(problemOf(season, DEFAULT_RULEBOOK, TODAY, TODAY)));
  const points = Math.max(...networks.map((network) => network.points));
  const bounds = networks.map(({ gaps }) =>
    gaps.reduce((sum, { lo, hi }) => sum + (lo === null ? 0 : 1) + (hi === null ? 0 : 1), 0),
  );
  return { points, constraints: Math.max(...bounds), usPlan, nsPoint: (usPlan * 1000) / points };
}

const reported = (count: number): readonly Report[] =>
  DONE.slice(0, count).map((activity, index) => ({
    activity,
    stage: 'finished',
    on: TODAY - 3 * (count - index),
  }));

function mainWay(index: number): Season {
  return {
    way: USUAL_WAY,
    areaHa: 0.2 + (index % 5) / 10,
    varietyDays: 105 + (index % 4) * 10,
    blockWater: WATER,
    target: { from: TODAY + 10, to: TODAY + 60 },
    reports: reported(index % 5),
  };
}

/** All that a season can have beside its reports. */
function wholeJob(index: number): Season {
  return {
    ...mainWay(index),
    way: { ...mainWay(index).way, water: 'rain-fed', tillage: 'animals', nursery: 'mat' },
    basalAdvised: true,
    restDays: { weekdays: [5], days: [TODAY + 4, TODAY + 12] },
    climate: {
      meanTemperatureC: Array.from({ length: 12 }, (_, month) => 20 + (month % 6)),
      rainMm: Array.from({ length: 12 }, () => 180),
      source: 'bench',
    },
    rains: Array.from({ length: 30 }, (_, day) => ({ on: TODAY - 40 + day, mm: (day * 7) % 12 })),
    machineFrom: TODAY + (index % 9),
    reports: reported(index % 4),
  };
}

/** The same, where every seventh plot was levelled badly and far too soon. */
function withUneven(index: number): Season {
  const season = wholeJob(index);
  if (index % 7 !== 0) return season;
  const measures = { spotsCm: [2, 25 - (index % 10), 9] };
  return {
    ...season,
    reports: [...season.reports, { activity: 'level', stage: 'finished', on: TODAY, measures }],
  };
}

/** Milliseconds for all plots of a block: each plan with its reminders, under the new dates. */
function replanMs(plots: number): number {
  const seasons = Array.from({ length: plots }, (_, index) => mainWay(index));
  const times = Array.from({ length: ROUNDS }, (_, round) => {
    const started = performance.now();
    for (const season of seasons) {
      const plan = planPlot(
        { ...season, blockWater: { from: TODAY + 5 + round, to: TODAY + 70 } },
        DEFAULT_RULEBOOK,
        TODAY,
      );
      remindersFor(plan, 'season', DEFAULT_RULEBOOK);
    }
    return performance.now() - started;
  });
  return Math.min(...times);
}
