/** "Work plough plot 3 with 3 teams": the days and hands that a step takes. */

import { isRefusal } from '../agronomy/sums/sum.ts';
import { WORK_ACTIVITIES, type WorkNeed, workNeed } from '../agronomy/sums/work-need.ts';
import type { SumReading } from '../hear/reading.ts';
import { activityName, inside } from './phrases.ts';
import { planned } from './planned.ts';
import { sumRefused } from './sum-refused.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

type Work = (typeof WORK_ACTIVITIES)[number];
const isWork = (activity: string | undefined): activity is Work =>
  (WORK_ACTIVITIES as readonly (string | undefined)[]).includes(activity);

/** The step that was named, or the next of the plan that takes more than a moment. */
export function answerWork(world: World, reading: SumReading, plot: PlotWorld): Part {
  const { steps } = planned(world, plot).plan;
  const open = steps.filter(({ status, activity }) => status !== 'done' && isWork(activity));
  const activity = reading.activity ?? open[0]?.activity ?? 'transplant';
  if (!isWork(activity)) return saying('sum.no-work');
  const { tillage } = plot.season.way;
  const teams = reading.teams ?? plot.season.teams?.[activity];
  const need = workNeed(
    {
      areaHa: reading.areaHa ?? plot.season.areaHa,
      tillage,
      activity,
      ...(teams !== undefined && { teams }),
    },
    world.rulebook,
  );
  return isRefusal(need) ? sumRefused(need) : { say: toldOf(plot, need) };
}

function toldOf(plot: PlotWorld, need: WorkNeed): Sentence[] {
  const { activity, areaHa, effort, teams, days, withMore } = need;
  const values = { activity: activityName(activity), inside: inside([plot]), area: areaHa };
  const amount =
    effort.teamsAre === 'people'
      ? Math.ceil(effort.personDays)
      : effort.teamsAre === 'pairs'
        ? Math.ceil(effort.pairDays)
        : Math.ceil(effort.machineDays);
  const all: Sentence = { key: `sum.work-${effort.teamsAre}`, values: { ...values, count: amount } };
  const [more] = withMore;
  return [
    all,
    { key: 'sum.work-days', values: { teams, count: Math.ceil(days) } },
    ...(more
      ? [{ key: 'sum.work-more', values: { teams: more.teams, count: Math.ceil(more.days) }, spare: true }]
      : []),
  ];
}
