/** Which blocks and plots of the group an agent means. */

import type { Day } from '../../plan/day.ts';
import { bareLabel } from '../../scheme/plot-label.ts';
import type { Block, Group, GroupPlot } from '../group.ts';
import { type Part, saying } from '../turn.ts';
import type { World } from '../world.ts';

const bare = (name: string) => name.toLowerCase().replace(/[^\p{L}\p{M}\p{Nd}]/gu, '');

/** The blocks named; all of the agent's where none is, or where "all" is said. A letter stands for the one name that it begins. */
export function blocksMeant({ blocks }: Group, said: string | undefined): readonly Block[] | null {
  if (said === undefined || said === 'all') return blocks;
  const whole = blocks.filter(({ name }) => bare(name) === bare(said));
  const begun = blocks.filter(({ name }) => bare(name).startsWith(bare(said)));
  const found = whole.length > 0 ? whole : begun;
  return found.length === 1 ? found : null;
}

/** One block; null where it is not clear which. */
export function blockMeant(group: Group, said: string | undefined): Block | null {
  const found = blocksMeant(group, said);
  const [only] = found ?? [];
  return found?.length === 1 && only ? only : null;
}

/** Asks for a block that is the agent's. */
export function whichBlock({ blocks }: Group): Part {
  return blocks.length === 0
    ? saying('agent.no-blocks')
    : saying('agent.which-block', { blocks: { list: blocks.map(({ name }) => name) } });
}

export const plotsOf = ({ plots }: Group, blocks: readonly Block[]): readonly GroupPlot[] =>
  plots.filter(({ blockId }) => blocks.some(({ id }) => id === blockId));

/** Plots by their names; a number alone is that of the one label that ends in it, or of several. */
export function plotsNamed(group: Group, said: string): readonly GroupPlot[] {
  const wanted = bareLabel(said);
  const exact = group.plots.filter(({ name }) => bareLabel(name) === wanted);
  if (exact.length > 0 || !/^\d+$/.test(wanted)) return exact;
  return group.plots.filter(({ name }) => bareLabel(name).replace(/^\D+/, '') === wanted);
}

/** An order for a season that is not this one is a slip. */
const FAR_DAYS = 200;

/** What to say of a day that is past or far off; null when it can be. */
export function wrongDay({ today }: World, on: Day): Part | null {
  if (on < today) return saying('agent.day-past', { day: { day: on } });
  return on > today + FAR_DAYS ? saying('agent.day-far', { day: { day: on } }) : null;
}
