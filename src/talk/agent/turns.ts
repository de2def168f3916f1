/** TURNS and a block: the turns as they were told, or as they would be from tomorrow; and how far the canal goes. */
import type { AgentReading } from '../../hear/reading.ts';
import { parseDay } from '../../plan/day.ts';
import { spanOf } from '../broadcast-text.ts';
import type { Group } from '../group.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { shortWords } from './flood.ts';
import { blockMeant, plotsOf, whichBlock } from './meant.ts';
import { inPages } from './pages.ts';
import { langOf } from './ready.ts';
import { waterPlan } from './water-plan.ts';

export function answerTurns(world: World, group: Group, reading: AgentReading): Part {
  const block = blockMeant(group, reading.block);
  if (!block) return whichBlock(group);
  const plots = plotsOf(group, [block]);
  const asked = reading.on == null ? null : parseDay(reading.on);
  const told = plots.filter(({ water }) => water && water.end.day >= world.today);
  if (told.length > 0 && asked === null) {
    const inTime = told.toSorted((a, b) => momentOf(a.water?.start) - momentOf(b.water?.start));
    const lines = inTime.flatMap(({ name, water }) => (water ? [turnLine(name, spanOf(water))] : []));
    return inPages(group, langOf(world), [{ key: 'turns.told', values: { block: block.name } }], lines);
  }
  const on = Math.max(asked ?? world.today + 1, world.today);
  const plan = waterPlan(world, group, block, on);
  if (plan.waiting.length === 0) return saying('flood.none-waits', { block: block.name });
  const head: Sentence[] = [
    { key: 'turns.would', values: { block: block.name, day: { day: on } } },
    ...shortWords(plan),
  ];
  const lines = plan.waiting.flatMap(({ id, name }) => {
    const visit = plan.visits.get(id);
    return visit ? [turnLine(name, spanOf(visit))] : [];
  });
  return inPages(group, langOf(world), head, lines);
}

const HOURS = 24;
const momentOf = (start: { readonly day: number; readonly hour: number } | undefined) =>
  start ? start.day * HOURS + start.hour : 0;

const turnLine = (plot: string, span: ReturnType<typeof spanOf>): Sentence => ({
  key: 'turns.plot',
  values: { plot, span },
});
