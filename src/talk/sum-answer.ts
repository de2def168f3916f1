/** Answers a request for a field sum: on the plot that was named, or the only one; impossible input gets a clear question. */
import type { SumName, SumReading } from '../hear/reading.ts';
import { officer } from './phrases.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import { answerGermination } from './sum-germination.ts';
import { answerLevel } from './sum-level.ts';
import { answerPhases } from './sum-phases.ts';
import { answerSeed } from './sum-seed.ts';
import { answerWork } from './sum-work.ts';
import { tellRain } from './tell-rain.ts';
import { type Part, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

type Answer = (world: World, reading: SumReading, plot: PlotWorld) => Part;

/** Sums of one plot. */
const OF_ONE_PLOT: Partial<Record<SumName, Answer>> = {
  level: answerLevel,
  seed: answerSeed,
  germination: answerGermination,
  work: answerWork,
  phases: answerPhases,
};

/** Rain is written down; of all other sums only a survey of a level plot is. */
export function answerSum(world: World, reading: SumReading): Part {
  if (reading.sum === 'rain') return tellRain(world, reading);
  const answer = OF_ONE_PLOT[reading.sum];
  if (!answer) return saying('later.sum', officer(world));
  const found = findPlots(world, reading.plots);
  if (found.kind === 'none') return noPlots(world);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (found.kind === 'which' || found.plots.length > 1) return whichPlot(world, [{ ...reading, plots: [] }]);
  const [plot] = found.plots as readonly [PlotWorld];
  const part = answer(world, reading, plot);
  return part.topic ? part : { ...part, topic: { plotId: plot.id, activity: null, sum: reading.sum } };
}
