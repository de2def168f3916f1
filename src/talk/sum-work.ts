/** "Work plough plot 3 with 3 teams": the days and hands that a step takes. */
import { isRefusal } from '../agronomy/sums/sum.ts';
import { type Effort, WORK_ACTIVITIES, type WorkNeed, workNeed } from '../agronomy/sums/work-need.ts';
import type { SumReading } from '../hear/reading.ts';
import { activityName } from './phrases.ts';
import { planned } from './planned.ts';
import { sumRefused } from './sum-refused.ts';
import { sumHead } from './sum-words.ts';
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
  if (isRefusal(need)) return sumRefused(need, need.refused === 'not-whole' ? 'teams' : undefined);
  return { say: toldOf(world, reading, plot, need) };
}

function toldOf(world: World, reading: SumReading, plot: PlotWorld, need: WorkNeed): Sentence[] {
  const { activity, effort, teams, days, withMore } = need;
  const all = sumHead(world, `sum.work-${effort.teamsAre}`, reading, plot, {
    activity: activityName(activity),
    count: Math.ceil(amountOf(effort)),
  });
  const daysWith = (count: number, many: number): Sentence => ({
    key: 'sum.work-days',
    values: { teams: many, count: Math.ceil(count) },
  });
  const quicker = withMore.filter((more, i) => more.days < (withMore[i - 1]?.days ?? days));
  return [
    all,
    daysWith(days, teams),
    ...quicker.map((more) => ({ ...daysWith(more.days, more.teams), spare: true })),
  ];
}

function amountOf(effort: Effort): number {
  switch (effort.teamsAre) {
    case 'people':
      return effort.personDays;
    case 'pairs':
      return effort.pairDays;
    case 'tillers':
      return effort.machineDays;
  }
}
