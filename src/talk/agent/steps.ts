/** IN STEP and a block: how far apart its plots are planted, which are out of step, and what brings them back. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import { figure } from '../../agronomy/rulebook.ts';
import type { AgentReading } from '../../hear/reading.ts';
import { type InStep, inStep } from '../../scheme/group/in-step.ts';
import type { Block, Group, GroupPlot } from '../group.ts';
import { numbersFor } from '../numbers.ts';
import { activityName } from '../phrases.ts';
import type { Part, Sentence } from '../turn.ts';
import type { World } from '../world.ts';
import { blocksMeant, plotsOf, whichBlock } from './meant.ts';
import { inPages } from './pages.ts';
import { langOf, namesOf, statesOf } from './ready.ts';

export function answerSteps(world: World, group: Group, reading: AgentReading): Part {
  const blocks = blocksMeant(group, reading.block);
  if (!blocks || blocks.length === 0) return whichBlock(group);
  return inPages(
    group,
    langOf(world),
    [],
    blocks.flatMap((block) => blockLines(world, group, block)),
  );
}

function blockLines(world: World, group: Group, block: Block): Sentence[] {
  const plots = plotsOf(group, [block]);
  const within = figure(world.rulebook, 'in-step.days');
  const found = inStep(statesOf(world, plots), within);
  if (!found.together) return [{ key: 'steps.unknown', values: { block: block.name } }];
  const { together, spreadDays, outside } = found;
  if (outside.length === 0)
    return [
      {
        key: 'steps.good',
        values: { block: block.name, count: spreadDays, ...numbersFor(world.rulebook, 'steps.good') },
      },
    ];
  const values = { from: { day: together.from }, to: { day: together.to } };
  return [
    {
      key: 'steps.spread',
      values: {
        block: block.name,
        count: spreadDays,
        ...numbersFor(world.rulebook, 'steps.spread'),
        ...values,
      },
    },
    ...outside.flatMap((out) => outLines(world, plots, found, out)),
    ...unknownLine(plots, found),
  ];
}

function outLines(
  world: World,
  plots: readonly GroupPlot[],
  { together }: InStep,
  { plotId, byDays }: InStep['outside'][number],
): Sentence[] {
  const plot = plots.find(({ id }) => id === plotId);
  if (!plot || !together) return [];
  const values = { plot: plot.name, name: plot.grower.name, count: Math.abs(byDays) };
  return [
    { key: byDays < 0 ? 'steps.early' : 'steps.late', values },
    ...(byDays < 0
      ? [{ key: 'steps.wait', values: { day: { day: together.from } } }]
      : waysBack(world, plot, together)),
  ];
}

/** Ways out of the plan that is asked to keep to the block's days. */
function waysBack(
  world: World,
  { season }: GroupPlot,
  together: NonNullable<InStep['together']>,
): Sentence[] {
  const { remedies } = planPlot({ ...season, target: together }, world.rulebook, world.today);
  for (const { kind, activity, teams = 1, plantOn } of remedies) {
    if (plantOn === null || plantOn > together.to) continue;
    if (kind === 'more-teams' && activity)
      return [{ key: 'flood.way-teams', values: { count: teams, activity: activityName(activity) } }];
    if (kind === 'sow-afresh') return [{ key: 'flood.way-nursery' }];
    if (kind === 'change-way') return [{ key: 'steps.way-unploughed' }];
  }
  return [];
}

function unknownLine(plots: readonly GroupPlot[], { unknown }: InStep): Sentence[] {
  const some = plots.filter(({ id }) => unknown.includes(id));
  return some.length === 0 ? [] : [{ key: 'steps.unknown-plots', values: { plots: namesOf(some) } }];
}
