/** READY, LATE and a plot: how far the plots are, who is late and by how many days, whom to call first. */
import { ACTIVITIES, type Activity } from '../../agronomy/season.ts';
import type { AgentReading } from '../../hear/reading.ts';
import type { Message } from '../../say/message.ts';
import { type PlotState, plotState, readiness } from '../../scheme/group/readiness.ts';
import type { Group, GroupPlot } from '../group.ts';
import { activityName } from '../phrases.ts';
import { hectares } from '../sum-words.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { blocksMeant, plotsOf, whichBlock } from './meant.ts';
import { inPages } from './pages.ts';

/** Plots named in a line. */
const NAMED = 8;

export const langOf = (world: World) => world.people[0]?.lang ?? world.scheme.languages[0] ?? 'en';

/** How each plot stands today, in the order given. */
export const statesOf = (world: World, plots: readonly GroupPlot[]): readonly PlotState[] =>
  plots.map(({ id, season, since }) => plotState(id, season, world.rulebook, world.today, since));

/** "Upper: 8 plots, 3.0 ha." and a line for each step that comes next. */
export function answerReady(world: World, group: Group, reading: AgentReading): Part {
  const blocks = blocksMeant(group, reading.block);
  if (!blocks || blocks.length === 0) return whichBlock(group);
  const lines = blocks.flatMap((block): Sentence[] => {
    const plots = plotsOf(group, [block]);
    const { byNext } = readiness(statesOf(world, plots), ACTIVITIES);
    const states = statesOf(world, plots);
    const areaHa = plots.reduce((sum, { season }) => sum + season.areaHa, 0);
    const head: Sentence = {
      key: 'ready.block',
      values: { block: block.name, count: plots.length, area: hectares(areaHa) },
    };
    return [
      head,
      ...byNext.map(({ next }) =>
        stepLine(
          next,
          plots.filter((_, i) => states[i]?.next === next),
        ),
      ),
    ];
  });
  return inPages(group, langOf(world), [], lines);
}

function stepLine(next: Activity | null, plots: readonly GroupPlot[]): Sentence {
  const values = { count: plots.length, plots: namesOf(plots) };
  return next === null
    ? { key: 'ready.over', values }
    : { key: 'ready.next', values: { ...values, activity: activityName(next) } };
}

/** "U-1, U-2 and 3 more". */
export function namesOf(
  plots: readonly GroupPlot[],
  most = NAMED,
): Message | { readonly list: readonly string[] } {
  const list = { list: plots.slice(0, most).map(({ name }) => name) };
  const more = plots.length - most;
  return more > 0 ? { key: 'ready.names-more', values: { plots: list, count: more } } : list;
}

/** Who is late, those first that hold their block back most. */
export function answerLate(world: World, group: Group, reading: AgentReading): Part {
  const blocks = blocksMeant(group, reading.block);
  if (!blocks || blocks.length === 0) return whichBlock(group);
  const plots = plotsOf(group, blocks);
  const names = { list: blocks.map(({ name }) => name) };
  const { late } = readiness(statesOf(world, plots), ACTIVITIES);
  if (late.length === 0) return saying('late.nobody', { blocks: names });
  const head: Sentence = { key: 'late.plots', values: { blocks: names, count: late.length } };
  return inPages(group, langOf(world), [head], lateLines(plots, late));
}

/** "U-7 and U-8 Dembe, ploughing 5 days late, +447700900004.": a grower's plots that wait for the same work in one line. */
export function lateLines(plots: readonly GroupPlot[], late: readonly PlotState[]): Sentence[] {
  const lines = new Map<string, { plots: GroupPlot[]; next: Activity; lateDays: number }>();
  for (const { plotId, lateAt: next, lateDays } of late) {
    const plot = plots.find(({ id }) => id === plotId);
    if (!plot || next === null) continue;
    const key = `${plot.grower.id} ${next}`;
    const line = lines.get(key) ?? { plots: [], next, lateDays: 0 };
    lines.set(key, line);
    line.plots.push(plot);
    line.lateDays = Math.max(line.lateDays, lateDays);
  }
  return [...lines.values()].map((line) => lateLine(line.plots, line.next, line.lateDays));
}

function lateLine(plots: readonly GroupPlot[], next: Activity, lateDays: number): Sentence {
  const grower = plots[0]?.grower;
  const values = {
    plots: namesOf(plots),
    name: grower?.name ?? '',
    activity: activityName(next),
    count: lateDays,
  };
  return grower?.phone == null
    ? { key: 'late.plot', values }
    : { key: 'late.plot-phone', values: { ...values, phone: grower.phone } };
}
