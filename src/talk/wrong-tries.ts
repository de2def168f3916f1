/** Wrong codes and names texted from one phone: a few a day, then none is looked at till the next. */
import type { Memory, WrongCodes } from './state.ts';
import type { World } from './world.ts';

/** So many wrong ones a day. */
const MOST_WRONG = 3;

const wrongToday = ({ today }: World, { wrongCodes }: Memory): number =>
  wrongCodes?.on === today ? wrongCodes.count : 0;

/** Whether the phone has had its wrong tries of today. */
export const hasTriedTooOften = (world: World, memory: Memory): boolean =>
  wrongToday(world, memory) >= MOST_WRONG;

/** What is kept after one more. */
export const oneMoreWrong = (world: World, memory: Memory): WrongCodes => ({
  on: world.today,
  count: wrongToday(world, memory) + 1,
});
