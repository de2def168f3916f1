/** Which plot a sum is about, where the text does not say it in so many words. */
import { figure } from '../agronomy/rulebook.ts';
import type { SumName, SumReading } from '../hear/reading.ts';
import type { World } from './world.ts';

/** How many bare numbers a sum takes itself: one more than these begins with the plot. */
const TAKEN: Readonly<Record<SumName, readonly number[]>> = {
  level: [],
  seed: [0],
  germination: [1, 2],
  nutrients: [0, 3],
  water: [0, 1],
  work: [0],
  phases: [0],
  rain: [],
};

/** An area without a unit is hectares: "seed 0.4". */
const OF_AREAS: readonly SumName[] = ['seed', 'water', 'work'];

/** The reading with its plot, or its area, where a bare number can be no other ("npk 3 120 60 40", "seed 3", "seed 0.4"). */
export function withPlot(world: World, reading: SumReading): SumReading {
  const { sum, plots, bare = [], depthsCm = [] } = reading;
  if (plots.length > 0) return reading;
  const numbers = sum === 'level' ? depthsCm : bare;
  const [first, ...rest] = numbers;
  if (first === undefined) return withAnyPlot(world, reading);
  const last = String(bare.at(-1));
  if (sum === 'germination' && bare.length === 3 && world.plots.some(({ number }) => number === last))
    return { ...reading, plots: [last], bare: bare.slice(0, 2) };
  const isPlot = world.plots.some(({ number }) => number === String(first));
  const isMore = sum === 'level' ? isSurveyed(world, rest.length) : TAKEN[sum].includes(rest.length);
  if (isPlot && isMore)
    return { ...reading, plots: [String(first)], ...(sum === 'level' ? { depthsCm: rest } : { bare: rest }) };
  if (OF_AREAS.includes(sum) && reading.areaHa === undefined)
    return withAnyPlot(world, { ...reading, areaHa: first, bare: rest });
  return withAnyPlot(world, reading);
}

/** "spots 3" names the plot to survey; before a whole survey a number names it only where there are several. */
const isSurveyed = (world: World, spots: number) =>
  spots === 0 || (world.plots.length > 1 && spots >= figure(world.rulebook, 'sum.spots.least'));

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
