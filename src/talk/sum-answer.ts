/** Answers a request for a field sum: on the plot that was named, or the only one; impossible input gets a clear question. */
import type { SumName, SumReading } from '../hear/reading.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import { standIn } from './stand-in.ts';
import { answerGermination } from './sum-germination.ts';
import { answerLevel } from './sum-level.ts';
import { answerNutrients } from './sum-nutrients.ts';
import { answerPhases } from './sum-phases.ts';
import { withPlot } from './sum-plot.ts';
import { answerSeed } from './sum-seed.ts';
import { answerWater } from './sum-water.ts';
import { answerWork } from './sum-work.ts';
import { tellRain } from './tell-rain.ts';
import { type Part, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

type Answer = (world: World, reading: SumReading, plot: PlotWorld) => Part;

/** Sums of one plot. */
const OF_ONE_PLOT: Record<Exclude<SumName, 'rain'>, Answer> = {
  level: answerLevel,
  seed: answerSeed,
  germination: answerGermination,
  water: answerWater,
  nutrients: answerNutrients,
  work: answerWork,
  phases: answerPhases,
};

/** N, P2O5 and K2O. */
const NUTRIENTS = 3;

/** Rain is written down; of all other sums only a survey is. */
export function answerSum(world: World, asked: SumReading): Part {
  if (asked.sum === 'rain') return tellRain(world, asked);
  const reading = withPlot(world, asked);
  if (reading.sum === 'nutrients' && ![0, NUTRIENTS].includes(reading.bare?.length ?? 0))
    return saying('sum.no-npk');
  if (reading.unknownUnit !== undefined) return saying('sum.no-unit', { said: reading.unknownUnit });
  if (reading.torn) return saying('sum.no-spots');
  const found = findPlots(world, reading.plots);
  if (found.kind === 'none') return ofArea(world, reading) ?? noPlots(world);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (found.kind === 'which' || found.plots.length > 1) return whichPlot(world, [{ ...reading, plots: [] }]);
  const [plot] = found.plots as readonly [PlotWorld];
  const part = OF_ONE_PLOT[asked.sum](world, reading, plot);
  return part.topic ? part : { ...part, topic: { plotId: plot.id, activity: null, sum: asked.sum } };
}

/** For an agent who has no plots: the sum of the area in the text, in the scheme's usual way; null where the text has none. */
function ofArea(world: World, reading: SumReading): Part | null {
  if (reading.areaHa === undefined || reading.sum === 'level' || reading.sum === 'rain') return null;
  const plot = standIn(world);
  return plot && OF_ONE_PLOT[reading.sum](world, reading, plot);
}
