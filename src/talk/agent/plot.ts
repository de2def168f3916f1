/** One plot of the group: whose it is, what was done last, what comes next and when, its turns. */
import { nextStep } from '../../agronomy/plot-plan.ts';
import { plotState } from '../../scheme/group/readiness.ts';
import { spanOf } from '../broadcast-text.ts';
import type { Group, GroupPlot } from '../group.ts';
import { activityName, dueWords } from '../phrases.ts';
import { planned } from '../planned.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { plotsNamed } from './meant.ts';

/** The plot as an agent texts its name; a number that several labels have is asked about. */
export function answerPlotName(world: World, group: Group, said: string): Part {
  const found = plotsNamed(group, said);
  const [only] = found;
  if (!only) return saying('agent.no-plot', { plot: said });
  if (found.length > 1)
    return saying('agent.which-plot', { plots: { list: found.slice(0, 6).map(({ name }) => name) } });
  return tellPlot(world, group, only);
}

function tellPlot(world: World, group: Group, plot: GroupPlot): Part {
  const { plan } = planned(world, plot);
  const { grower, season } = plot;
  const block = group.blocks.find(({ id }) => id === plot.blockId)?.name ?? '';
  const last = plan.steps.findLast(({ status, implied }) => status === 'done' && !implied);
  const next = nextStep(plan);
  const { lateDays } = plotState(plot.id, season, world.rulebook, world.today, plot.since);
  const say: Sentence[] = [
    { key: 'plot-state.head', values: { plot: plot.name, name: grower.name, area: season.areaHa, block } },
  ];
  if (last) {
    const activity = activityName(last.activity);
    say.push(
      last.on === null
        ? { key: 'plot-state.last-unknown', values: { activity } }
        : { key: 'plot-state.last', values: { activity, day: { day: last.on } } },
    );
  }
  if (next?.due != null) {
    const due = dueWords(next.activity, next.due, world.today);
    say.push({ key: 'plot-state.next', values: { activity: activityName(next.activity), due } });
  }
  if (lateDays > 0) say.push({ key: 'plot-state.late', values: { count: lateDays } });
  if (plot.water && plot.water.end.day >= world.today)
    say.push({ key: 'plot-state.water', values: { span: spanOf(plot.water) } });
  if (plot.team && plot.team.end.day >= world.today)
    say.push({ key: 'plot-state.team', values: { day: { day: plot.team.start.day } } });
  say.push(contact(plot));
  return { say, topic: { plotId: plot.id, activity: next?.activity ?? null } };
}

function contact({ grower }: GroupPlot): Sentence {
  if (grower.phone === null) return { key: 'plot-state.no-phone' };
  return { key: grower.stopped ? 'plot-state.stopped' : 'plot-state.phone', values: { phone: grower.phone } };
}
