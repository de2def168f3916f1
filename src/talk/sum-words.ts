/** What the answers to field sums share: whose sum it is, and figures as they are said. */
import type { SumReading } from '../hear/reading.ts';
import type { Message } from '../say/message.ts';
import { which } from './phrases.ts';
import { withSize } from './plot-size.ts';
import type { Sentence } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** Guards against 7.1 becoming 7.2 by rounding. */
const ROUNDING = 1e-9;

/** Whole figures from ten on, tenths below; never less than the sum gives. */
export const tidy = (value: number): number =>
  value < 10 ? Math.ceil(value * 10 - ROUNDING) / 10 : Math.ceil(value - ROUNDING);

/** Hectares to the hundredth, neither up nor down. */
export const hectares = (areaHa: number): number => Math.round(areaHa * 100) / 100;

/** The head of an answer: "Plot 3, 0.25 ha: …", or "0.4 ha: …" where the text gave an area. */
export function sumHead(
  world: World,
  key: string,
  { areaHa }: SumReading,
  plot: PlotWorld,
  values: Message['values'],
): Sentence {
  const whose: Message =
    areaHa === undefined
      ? { key: 'sum.of-plot', values: { which: which([plot]), area: plot.season.areaHa } }
      : { key: 'sum.of-area', values: { area: areaHa } };
  const sized = withSize(world, whose, areaHa ?? plot.season.areaHa, 1);
  return { key, values: { ...values, whose: sized } };
}
