/** One text on a known phone, as the parts of a step look at it. */
import type { TextEvent } from './event.ts';
import type { Memory, Standing } from './state.ts';
import type { World } from './world.ts';

/** A text on a known phone, and where its conversation stands; `pick` is the number that it answers with. */
export interface Texted {
  readonly world: World;
  readonly standing: Standing;
  readonly event: TextEvent;
  readonly pick: number | null;
  readonly memory: Memory;
}
