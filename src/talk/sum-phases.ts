/** "Phases plot 3": when panicles form, when it flowers, when to drain and cut, and the weeks of the birds. */
import { phasesOf } from '../agronomy/sums/phases.ts';
import type { SumReading } from '../hear/reading.ts';
import { which } from './phrases.ts';
import { planned } from './planned.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

export function answerPhases(world: World, _reading: SumReading, plot: PlotWorld): Part {
  const { season, plan } = planned(world, plot);
  const { phases, lacks } = phasesOf(season, plan, world.rulebook);
  if (!phases)
    return saying(`sum.phases-${lacks ?? 'sowing-day'}`, { which: which([plot]), plot: plot.number });
  const { panicleOn, floweringOn, drainOn, harvestOn, birds } = phases;
  const values = { which: which([plot]), panicle: { day: panicleOn }, flowering: { day: floweringOn } };
  const say: Sentence[] = [
    season.way.ripens === 'by-days'
      ? { key: 'sum.phases', values: { ...values, days: season.varietyDays } }
      : { key: 'sum.phases-date', values },
    drainOn === null
      ? { key: 'sum.phases-harvest', values: { harvest: { day: harvestOn } } }
      : { key: 'sum.phases-end', values: { drain: { day: drainOn }, harvest: { day: harvestOn } } },
  ];
  const weeks = birds && {
    key: 'sum.phases-birds',
    values: { from: { day: birds.from }, to: { day: birds.to } },
  };
  return { say: weeks ? [...say, weeks] : say };
}
