/** What is said of a step that waits for rain. */
import type { PlanStep } from '../agronomy/plot-plan.ts';
import type { RainWait } from '../agronomy/rain-gates.ts';
import { doWords, which } from './phrases.ts';
import type { Planned } from './planned.ts';
import type { Sentence } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** "Next: puddle, but not yet: 120 of 200 mm of rain so far." */
export function rainHead(
  world: World,
  { season }: Planned,
  { activity }: PlanStep,
  wait: RainWait,
): Sentence {
  const values = {
    do: doWords(world.rulebook, activity, season.way),
    sum: Math.floor(wait.sumMm),
    need: wait.needMm,
  };
  return wait.state === 'expected'
    ? { key: 'next.rain-expected', values: { ...values, day: { day: wait.from } } }
    : { key: 'next.rain', values };
}

/** "Plot 3: puddle after 200 mm of rain (120 so far)." */
export function rainLine(
  world: World,
  { season }: Planned,
  { activity, waitsFor }: PlanStep,
  plots: readonly PlotWorld[],
): Sentence {
  if (waitsFor?.falseStart && waitsFor.sumMm >= waitsFor.needMm)
    return { key: 'next.rain-dry-line', values: { which: which(plots) } };
  const values = {
    which: which(plots),
    do: doWords(world.rulebook, activity, season.way),
    sum: Math.floor(waitsFor?.sumMm ?? 0),
    need: waitsFor?.needMm ?? 0,
  };
  return { key: 'next.rain-line', values };
}
