/** Which plot a sum is about, where the text does not say it in so many words. */
import { figure } from '../agronomy/rulebook.ts';
import { OF_AREAS, type SumName, type SumReading } from '../hear/reading.ts';
import type { World } from './world.ts';

/** How many bare numbers a sum takes itself: one more than these begins with the plot. */
const TAKEN: Readonly<Record<SumName, readonly number[]>> = {
  level: [],
  seed: [0],
  germination: [2],
  nutrients: [0, 3],
  water: [0, 1],
  work: [0],
  phases: [0],
  rain: [],
};

/** The reading with its plot, or its area, where a bare number can be no other ("npk 3 120 60 40", "seed 3", "seed 0.4"). */
export function withPlot(world: World, reading: SumReading): SumReading {
  const { sum, plots, bare = [], depthsCm = [] } = reading;
  if (plots.length > 0) return reading;
  const isPlot = (number: number | undefined) => world.plots.some((plot) => plot.number === String(number));
  const [first, ...rest] = sum === 'level' ? depthsCm : bare;
  if (first === undefined) return withAnyPlot(world, reading);
  if (sum === 'germination' && bare.length > 2 && isPlot(bare.at(-1)))
    return { ...reading, plots: [String(bare.at(-1))], bare: bare.slice(0, -1) };
  const others = isPlot(first) ? behindPlot(world, reading, rest.length) : null;
  if (others === 'plot')
    return { ...reading, plots: [String(first)], ...(sum === 'level' ? { depthsCm: rest } : { bare: rest }) };
  if (others === 'doubtful') return { ...reading, torn: true };
  if (!OF_AREAS.includes(sum) || reading.areaHa !== undefined) return withAnyPlot(world, reading);
  if (bare.length > 1 && bare.every(isPlot)) return { ...reading, plots: bare.map(String), bare: [] };
  return withAnyPlot(world, { ...reading, areaHa: first, bare: rest });
}

/** Whether a first number that is a plot's names it, by how many numbers follow; of a survey that may be a depth, neither. */
function behindPlot(
  world: World,
  { sum, percent }: SumReading,
  following: number,
): 'plot' | 'doubtful' | null {
  if (sum === 'germination' && percent !== undefined) return following === 0 ? 'plot' : null;
  if (sum !== 'level') return TAKEN[sum].includes(following) ? 'plot' : null;
  if (following === 0 || following >= figure(world.rulebook, 'sum.spots.least')) return 'plot';
  return world.plots.length > 1 ? 'doubtful' : null;
}

/** The sum of an area needs a plot only for the way in which it is grown; where all are grown alike, any will do. */
function withAnyPlot(world: World, reading: SumReading): SumReading {
  const [first, ...others] = world.plots;
  if (reading.areaHa === undefined || !first || reading.sum === 'level') return reading;
  const grown = (plot: World['plots'][number]) =>
    JSON.stringify([plot.season.way, plot.season.varietyDays, plot.blockId]);
  return others.every((plot) => grown(plot) === grown(first))
    ? { ...reading, plots: [first.number] }
    : reading;
}
