/** Texts that are no report: what is not done, what is planned. Nothing is recorded as done. */
import { stepFor } from '../agronomy/plot-plan.ts';
import type { Activity } from '../agronomy/season.ts';
import type { IntendReading, NotDoneReading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';
import { isForeign } from './doubt.ts';
import type { Effect } from './effect.ts';
import { tellNext } from './next-step.ts';
import { leave, numbered } from './numbered.ts';
import { activityName, doneSentence, inside, officer, which, wordFor } from './phrases.ts';
import { planned, remindEffects } from './planned.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** "Not ploughed plot 3": nothing is recorded; if it stands as done, whether to take it back. */
export function answerNotDone(world: World, reading: NotDoneReading): Part {
  const found = findPlots(world, reading.plots);
  if (found.kind === 'none') return noPlots(world);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (found.kind === 'which')
    return reading.activity ? whichPlot(world, [reading]) : saying('unclear.which-activity');
  if (reading.activity === null)
    return tellNext(
      world,
      found.plots.map((plot) => planned(world, plot)),
    );
  const { activity } = reading;
  const foreign = grownWithout(world, found.plots, activity);
  if (foreign) return foreign;
  const standing = found.plots.flatMap((plot) =>
    plot.season.reports.filter((report) => report.activity === activity),
  );
  const [last] = standing.slice(-1);
  const first = found.plots[0] as PlotWorld;
  if (last) {
    const plot = found.plots.find(({ seasonId }) => seasonId === last.seasonId) ?? first;
    const head = doneSentence(activity, [plot], last.on, 'ask.stands', 'ask.stands-unknown');
    const takeBack = {
      what: { key: 'choice.take-back' },
      leads: { do: 'undo' as const, reports: [last.id] },
    };
    return {
      ...numbered([head], [takeBack, leave('choice.keep')]),
      topic: { plotId: plot.id, activity: null },
    };
  }
  const head = {
    key: 'ask.not-done-right',
    values: { activity: activityName(activity), inside: inside(found.plots) },
  };
  const again = { activity, plot: first.number };
  return {
    ...numbered(
      [head],
      [
        { what: { key: 'choice.yes' }, leads: { do: 'say', key: 'not-done.agreed', values: again } },
        { what: { key: 'choice.no' }, leads: { do: 'say', key: 'not-done.refused', values: again } },
      ],
    ),
    topic: { plotId: first.id, activity: null },
  };
}

/** "Will plough tomorrow": nothing is recorded; whether the day fits, and what to text when it is done. */
export function answerIntend(world: World, reading: IntendReading): Part {
  const found = findPlots(world, reading.plots);
  if (found.kind === 'none') return noPlots(world);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (found.kind === 'which') return whichPlot(world, [reading]);
  const [plot] = found.plots as readonly [PlotWorld];
  const { activity } = reading;
  const foreign = grownWithout(world, found.plots, activity);
  if (foreign) return foreign;
  const step = stepFor(planned(world, plot).plan, activity);
  const day = reading.on === null ? null : parseDay(reading.on);
  if (activity === 'harvest' && day !== null && plot.season.way.ripens === 'by-local-date')
    return noteHarvest(world, found.plots, day);
  const say: Sentence[] = [
    { key: 'intend.noted', values: { which: which(found.plots), activity: activityName(activity) } },
  ];
  if (day !== null && step?.latest != null && day > step.latest) {
    say.push({ key: 'intend.late', values: { day: { day }, latest: { day: step.latest } } });
  }
  if (day !== null && step?.earliest != null && day < step.earliest) {
    say.push({ key: 'intend.early', values: { day: { day }, earliest: { day: step.earliest } } });
  }
  say.push({ key: 'intend.when-done', values: { word: wordFor(activity), plot: plot.number } });
  return { say, topic: { plotId: plot.id, activity: null } };
}

/** The local date by which this variety is cut: the last weeks of the plan hang on it. */
function noteHarvest(world: World, plots: readonly PlotWorld[], day: Day): Part {
  const change = { harvestOn: day };
  const plans = plots.map((plot) => planned(world, plot, { season: change }));
  const next = tellNext(world, plans);
  return {
    ...next,
    say: [{ key: 'intend.harvest-date', values: { which: which(plots), day: { day } } }, ...next.say],
    effects: [
      ...plots.map(({ seasonId }): Effect => ({ do: 'change-season', seasonId, change })),
      ...remindEffects(world, plans),
      ...(next.effects ?? []),
    ],
  };
}

/** What to say of work that the first of these plots does not have; null when it does. */
function grownWithout(world: World, plots: readonly PlotWorld[], activity: Activity): Part | null {
  const [plot] = plots;
  if (!plot || !isForeign(world, plot, activity)) return null;
  return saying('ask.foreign', { which: which([plot]), activity: activityName(activity), ...officer(world) });
}
