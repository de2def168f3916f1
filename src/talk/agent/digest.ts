/** How the blocks are: land cleared, ploughed, levelled and planted, who is late, what troubles were told. By text and once a week. */

import { planPlot } from '../../agronomy/plan-plot.ts';
import { ACTIVITIES, type Activity } from '../../agronomy/season.ts';
import type { Saying } from '../../say/message.ts';
import { readiness } from '../../scheme/group/readiness.ts';
import type { Block, Group, GroupPlot } from '../group.ts';
import { hectares } from '../sum-words.ts';
import type { Part, Sentence } from '../turn.ts';
import type { World } from '../world.ts';
import { plotsOf } from './meant.ts';
import { inPages } from './pages.ts';
import { langOf, lateLines, statesOf } from './ready.ts';

/** Late plots named at the end. */
const NAMED = 3;

export function answerDigest(world: World, group: Group, blocks: readonly Block[]): Part {
  const plots = plotsOf(group, blocks);
  const states = statesOf(world, plots);
  const { late } = readiness(states, ACTIVITIES);
  const troubles = group.troubles.filter(({ plotId }) => plots.some(({ id }) => id === plotId));
  const lines: Sentence[] = [
    ...blocks.map((block) => blockLine(world, block, plotsOf(group, [block]))),
    ...(late.length > 0
      ? [{ key: 'digest.late', values: { count: late.length } }, ...lateLines(plots, late)]
      : [{ key: 'digest.nobody-late' }]),
    ...troubleLines(plots, troubles),
  ];
  return inPages(group, langOf(world), [], lines);
}

/** The week's text to an agent; null for one without plots. Where lines have no room, it says how to see all. */
export function weeklyDigest(world: World): Saying | null {
  const { group } = world;
  if (!group || group.plots.length === 0) return null;
  const { say } = answerDigest(world, group, group.blocks);
  return { sentences: say.map((one) => (one.key === 'agent.more' ? { key: 'digest.all' } : one)) };
}

function blockLine(world: World, block: Block, plots: readonly GroupPlot[]): Sentence {
  const plans = plots.map(({ season }) => ({
    areaHa: season.areaHa,
    steps: planPlot(season, world.rulebook, world.today).steps,
  }));
  const doneHa = (...activities: readonly Activity[]) =>
    hectares(
      plans
        .filter(({ steps }) =>
          steps.some(({ activity, status }) => activities.includes(activity) && status === 'done'),
        )
        .reduce((sum, { areaHa }) => sum + areaHa, 0),
    );
  return {
    key: 'digest.block',
    values: {
      block: block.name,
      cleared: doneHa('clear'),
      ploughed: doneHa('plough'),
      levelled: doneHa('level'),
      planted: doneHa('transplant', 'sow-direct'),
      area: hectares(plans.reduce((sum, { areaHa }) => sum + areaHa, 0)),
    },
  };
}

function troubleLines(plots: readonly GroupPlot[], troubles: Group['troubles']): Sentence[] {
  if (troubles.length === 0) return [];
  const list = troubles.slice(-NAMED).flatMap(({ plotId, what }) => {
    const plot = plots.find(({ id }) => id === plotId);
    return plot
      ? [{ key: 'digest.trouble', values: { plot: plot.name, what: { key: troubleKey(what) } } }]
      : [];
  });
  return [{ key: 'digest.troubles', values: { count: troubles.length, list: { list } } }];
}

/** A text that could not be read twice in a row is a trouble too. */
const troubleKey = (what: string) =>
  what === 'not-understood' ? 'digest.not-understood' : `trouble.${what}`;
