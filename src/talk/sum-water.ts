/** "Water plot 3": what soaks and holds the plot, a depth of water on it, or its need in a month of usual weather. */
import { figure } from '../agronomy/rulebook.ts';
import { monthEto } from '../agronomy/sums/climate.ts';
import { monthNeed } from '../agronomy/sums/month-need.ts';
import { type FromCanal, type PlotWater, plotWater } from '../agronomy/sums/plot-water.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import { M3_IN_MM_HA, MM_PER_CM } from '../agronomy/sums/units.ts';
import { turnHours } from '../agronomy/sums/water-turn.ts';
import type { SumReading } from '../hear/reading.ts';
import { dayParts } from '../plan/day.ts';
import { officer } from './phrases.ts';
import type { Topic } from './state.ts';
import { sumRefused } from './sum-refused.ts';
import { sumHead, tidy } from './sum-words.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** With a month its need, with a depth the water for that; else what soaks and holds the plot. */
export function answerWater(world: World, reading: SumReading, plot: PlotWorld): Part {
  if (reading.month !== undefined) return monthOf(world, reading, plot, reading.month);
  const water = waterOf(world, plot, reading.areaHa);
  if (isRefusal(water)) return sumRefused(water);
  const cm = reading.depthsCm?.[0] ?? reading.bare?.[0];
  const most = figure(world.rulebook, 'sum.spot-depth.max');
  if (cm !== undefined && (cm <= 0 || cm > most))
    return sumRefused({ refused: 'depth-over', what: String(cm) });
  if (cm === undefined) return { say: toldOf(world, reading, plot, water) };
  return { say: ofDepth(world, reading, plot, water, cm), topic: topicOf(plot, 'depth') };
}

/** The plot's water by the canal of its block and the weather of its scheme, as far as they are known. */
export function waterOf(world: World, plot: PlotWorld, areaHa = plot.season.areaHa) {
  const month = dayParts(world.today).month;
  const eto = monthEto(world.rulebook, world.scheme.climate, month);
  return plotWater(
    {
      areaHa,
      canal: canalOf(world, plot),
      ...(eto.by !== 'usual' && { etoMmPerDay: eto.value }),
    },
    world.rulebook,
  );
}

const topicOf = (plot: PlotWorld, variant: 'month' | 'depth'): Topic => ({
  plotId: plot.id,
  activity: null,
  sum: 'water',
  variant,
});

const canalOf = (world: World, { blockId }: PlotWorld) =>
  world.scheme.blocks.find(({ id }) => id === blockId)?.canal ?? null;

function toldOf(world: World, reading: SumReading, plot: PlotWorld, water: PlotWater): Sentence[] {
  const { canal, soakedM3, lossM3PerDay, lossMmPerDay } = water;
  return [
    sumHead(world, 'sum.water', reading, plot, { m3: tidy(soakedM3), deep: water.soakDepthMm }),
    ...(canal?.soakHours != null ? [turn(canal.soakHours)] : []),
    { key: 'sum.water-day', values: { m3: tidy(lossM3PerDay), mm: lossMmPerDay } },
    ...(canal ? [held(canal)] : []),
  ];
}

const turn = (hours: number): Sentence => ({ key: 'sum.water-turn', values: { hours: tidy(hours) } });

function held({ shortLps, holdHoursPerWeek }: FromCanal): Sentence {
  return shortLps === null
    ? { key: 'sum.water-hold', values: { hours: tidy(holdHoursPerWeek) } }
    : { key: 'sum.water-short' };
}

/** So many cm of water on the plot; nothing is lost meanwhile. */
function ofDepth(
  world: World,
  reading: SumReading,
  plot: PlotWorld,
  water: PlotWater,
  cm: number,
): Sentence[] {
  const canal = canalOf(world, plot);
  const flow = canal && water.canal && { ...canal, efficiency: water.canal.efficiency };
  const m3 = tidy(cm * MM_PER_CM * water.areaHa * M3_IN_MM_HA);
  return [
    sumHead(world, 'sum.water-depth', reading, plot, { cm, m3 }),
    ...(flow ? [turn(turnHours(water.areaHa, cm * MM_PER_CM, flow))] : []),
  ];
}

function monthOf(world: World, reading: SumReading, plot: PlotWorld, month: number): Part {
  const { climate } = world.scheme;
  if (!climate) return saying('sum.no-climate', officer(world));
  const need = monthNeed({ month, areaHa: reading.areaHa ?? plot.season.areaHa, climate }, world.rulebook);
  if (isRefusal(need))
    return need.refused === 'rain-missing' ? saying('sum.no-climate', officer(world)) : sumRefused(need);
  const values = { month: { month }, m3: tidy(need.needM3), mm: Math.round(need.needMm) };
  return {
    topic: topicOf(plot, 'month'),
    say: [
      sumHead(world, 'sum.water-month', reading, plot, values),
      { key: 'sum.water-rain', values: { mm: Math.round(need.effectiveRainMm) } },
    ],
  };
}
