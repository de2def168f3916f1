/** "Germ 82 of 100": how well the seed sprouts, and what that makes of the seed for the plot. */
import { germination } from '../agronomy/sums/germination.ts';
import { isRefusal, refusal } from '../agronomy/sums/sum.ts';
import type { SumReading } from '../hear/reading.ts';
import { sumRefused } from './sum-refused.ts';
import { seedOf } from './sum-seed.ts';
import { type Part, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

const ALL_PERCENT = 100;

/** The percentage from two counts, or as texted; then the seed for the plot. */
export function answerGermination(world: World, reading: SumReading, plot: PlotWorld): Part {
  const { bare = [], percent } = reading;
  const [sprouted, of, ...more] = bare;
  if (percent === undefined && (sprouted === undefined || more.length > 0))
    return saying('sum.no-germination');
  const found =
    percent !== undefined || of === undefined
      ? asPercent(percent ?? sprouted ?? 0)
      : germination({ sprouted: sprouted ?? 0, of }, world.rulebook);
  if (isRefusal(found)) return sumRefused(found);
  if (found.percent === 0)
    return { say: [{ key: 'sum.germination', values: { percent: 0 } }, { key: 'sum.other-seed' }] };
  const seed = seedOf(world, reading, plot, found.percent);
  return { ...seed, say: [{ key: 'sum.germination', values: { percent: found.percent } }, ...seed.say] };
}

const asPercent = (percent: number) =>
  percent >= 0 && percent <= ALL_PERCENT ? { percent } : refusal('germination-over', percent);
