/** FLOOD and a block: the best day to open its canal, and why; with a day, the preview of what its growers will be told. */

import type { AgentReading } from '../../hear/reading.ts';
import { type Day, parseDay } from '../../plan/day.ts';
import type { Message } from '../../say/message.ts';
import { bestByTurns } from '../../scheme/group/best-by-turns.ts';
import { blockTurns, waitingPlots } from '../../scheme/group/block-turns.ts';
import { bestFloodDate, type FloodDate, type LeftOut } from '../../scheme/group/flood-date.ts';
import { floodDays } from '../../scheme/group/flood-days.ts';
import { type WayIn, wayIn, workBeforeFlood } from '../../scheme/group/ways-in.ts';
import type { Block, Group, GroupPlot } from '../group.ts';
import { activityName } from '../phrases.ts';
import { hectares, tidy } from '../sum-words.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { propose } from './code.ts';
import type { AgentMemory } from './deed.ts';
import { waterBroadcast } from './flood-deed.ts';
import { blockMeant, plotsOf, whichBlock, wrongDay } from './meant.ts';
import { inPages } from './pages.ts';
import { previewOf } from './preview.ts';
import { namesOf } from './ready.ts';
import { canalOf, type NotReady, notReady, turnPlots, type WaterPlan, waterPlan } from './water-plan.ts';

/** How far ahead a best day is looked for. */
const LOOK_AHEAD_DAYS = 120;
/** Plots that are not ready, named in a preview. */
const NAMED = 3;
/** Others, in each line of what MORE tells. */
const IN_A_LINE = 6;

export function answerFlood(world: World, group: Group, reading: AgentReading, memory: AgentMemory): Part {
  const block = blockMeant(group, reading.block);
  if (!block) return whichBlock(group);
  const on = reading.on == null ? null : parseDay(reading.on);
  if (on === null) return bestDay(world, group, block);
  const wrong = wrongDay(world, on);
  if (wrong) return wrong;
  return preview(world, group, block, on, memory);
}

function bestDay(world: World, group: Group, block: Block): Part {
  const { rulebook: book, today } = world;
  const { waiting, heldHa } = waitingPlots(plotsOf(group, [block]), book, today);
  if (waiting.length === 0) return saying('flood.none-waits', { block: block.name });
  const days = waiting.map(({ id, season }) => floodDays(id, season, book, today));
  const span = { from: today, to: today + LOOK_AHEAD_DAYS };
  const canal = canalOf(world, block, waiting, today);
  const turnsOn = (on: Day) =>
    new Map(
      (canal ? blockTurns(turnPlots(waiting), canal, heldHa, on).turns : []).map((turn) => [
        turn.plotId,
        turn.start.day,
      ]),
    );
  const best = canal ? bestByTurns(days, span, turnsOn) : bestFloodDate(days, span);
  if (!best || best.plots === 0) return saying('flood.no-day', { block: block.name });
  const turns = turnsOn(best.on);
  return inPages(
    group,
    world.people[0]?.lang ?? 'en',
    [...bestWords(block, best, waiting.length), ...shortWords(waterPlan(world, group, block, best.on))],
    best.leftOut.flatMap((out) => outWords(world, waiting, out, turns.get(out.plotId) ?? best.on)),
  );
}

function bestWords(block: Block, best: FloodDate, total: number): Sentence[] {
  const values = { block: block.name, day: { day: best.on }, count: best.plots, area: hectares(best.areaHa) };
  return [
    best.leftOut.length === 0
      ? { key: 'flood.best-all', values }
      : { key: 'flood.best', values: { ...values, total } },
    { key: 'flood.to-tell' },
  ];
}

/** Who falls out, why, and what would bring the plot in. */
function outWords(
  world: World,
  plots: readonly GroupPlot[],
  { plotId, why, byDays }: LeftOut,
  on: Day,
): Sentence[] {
  const plot = plots.find(({ id }) => id === plotId);
  // What gets no turn is told with the canal.
  if (!plot || why === 'no-turn') return [];
  const { season, name, grower } = plot;
  const who = { plot: name, name: grower.name };
  if (why === 'never') return [{ key: 'flood.out-never', values: who }];
  const before = workBeforeFlood(season, world.rulebook, world.today);
  const way = wayWords(wayIn(season, world.rulebook, world.today, on));
  if (why === 'too-late') return [{ key: 'flood.out-late', values: { ...who, count: byDays } }, ...way];
  return [
    before
      ? {
          key: 'flood.out-soon',
          values: { ...who, day: { day: on + byDays }, activity: activityName(before) },
        }
      : { key: 'flood.out-soon-plain', values: { ...who, day: { day: on + byDays } } },
    ...way,
  ];
}

function wayWords(way: WayIn | null): Sentence[] {
  switch (way?.kind) {
    case 'more-teams':
      return [{ key: 'flood.way-teams', values: { count: way.teams, activity: activityName(way.activity) } }];
    case 'sow-afresh':
      return [{ key: 'flood.way-nursery' }];
    case 'other-dates':
      return [{ key: 'flood.way-dates' }];
    case undefined:
      return [];
  }
}

function preview(world: World, group: Group, block: Block, on: Day, memory: AgentMemory): Part {
  const plan = waterPlan(world, group, block, on);
  if (plan.waiting.length === 0) return saying('flood.none-waits', { block: block.name });
  const broadcast = waterBroadcast(world, block, plan);
  if (!broadcast || broadcast.appointments.length === 0)
    return { say: [{ key: 'flood.nothing-new', values: { block: block.name } }, ...shortWords(plan)] };
  const [first, rest] = notReadyWords(notReady(world, plan));
  const say: Sentence[] = [
    {
      key: 'flood.preview',
      values: { block: block.name, day: { day: firstDay(plan) }, till: { day: lastDay(plan) } },
    },
    ...shortWords(plan),
    ...previewOf(world, group, broadcast),
    ...first,
  ];
  return propose(world, memory, { do: 'flood', blockId: block.id, on }, say, rest);
}

const firstDay = ({ on, visits }: WaterPlan): Day =>
  visits.size === 0 ? on : Math.min(...[...visits.values()].map(({ start }) => start.day));

const lastDay = ({ on, visits }: WaterPlan): Day =>
  Math.max(on, ...[...visits.values()].map(({ end }) => end.day));

/** The canal is too small, or closes too soon: which plots are in the first round, and without which it is. */
export function shortWords({ without, waiting, shortLps, closes }: WaterPlan): Sentence[] {
  if (without.length === 0) return [];
  const round = {
    count: waiting.length - without.length,
    total: waiting.length,
    plots: namesOf(without, NAMED),
  };
  return closes === null
    ? [{ key: 'flood.short', values: { flow: tidy(shortLps), ...round } }]
    : [{ key: 'flood.closes', values: { day: { day: closes }, ...round } }];
}

/** The first plots that are not in time, in the preview; the others in lines of their own. */
function notReadyWords(all: readonly NotReady[]): readonly [readonly Sentence[], readonly Sentence[]] {
  const line = (some: readonly NotReady[], count: number): Sentence => ({
    key: 'flood.not-ready',
    values: { count, list: { list: some.map(notReadyPlot) } },
  });
  const rest: Sentence[] = [];
  for (let at = NAMED; at < all.length; at += IN_A_LINE)
    rest.push(line(all.slice(at, at + IN_A_LINE), Math.min(IN_A_LINE, all.length - at)));
  return [all.length === 0 ? [] : [line(all.slice(0, NAMED), all.length)], rest];
}

const notReadyPlot = ({ plot, why, byDays }: NotReady): Message => ({
  key: why === 'too-late' ? 'flood.late-plot' : why === 'never' ? 'flood.never-plot' : 'flood.soon-plot',
  values: { plot: plot.name, ...(why === 'never' ? {} : { count: byDays }) },
});
