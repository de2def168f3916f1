/** Texts that are no report: what is not done, what is planned, what is in the way. Nothing is recorded as done. */
import { stepFor } from '../agronomy/plot-plan.ts';
import type { Activity, SeasonChange } from '../agronomy/season.ts';
import type { IntendReading, NotDoneReading, Trouble, TroubleReading } from '../hear/reading.ts';
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
import { askWaysOut } from './ways-out.ts';
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

/** What to say of work that the first of these plots does not have; null when it does. */
function grownWithout(world: World, plots: readonly PlotWorld[], activity: Activity): Part | null {
  const [plot] = plots;
  if (!plot || !isForeign(world, plot, activity)) return null;
  return saying('ask.foreign', { which: which([plot]), activity: activityName(activity), ...officer(world) });
}

/** A trouble goes to the agent's list with its words. */
export function answerTrouble(world: World, reading: TroubleReading, words: string): Part {
  const found = findPlots(world, reading.plots);
  if (found.kind === 'none') return noPlots(world);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  const plots = found.kind === 'plots' ? found.plots : world.plots;
  const until = reading.until === null ? null : parseDay(reading.until);
  const noted: Sentence[] = [
    { key: 'trouble.noted', values: { what: { key: `trouble.${reading.what}` }, ...officer(world) } },
    ...(reading.what === 'other' ? [{ key: 'trouble.hurt' }] : []),
  ];
  const effects: Effect[] = plots.map(({ seasonId }) => ({
    do: 'note-trouble',
    seasonId,
    what: reading.what,
    until,
    words,
  }));
  const change = lackUntil(reading.what, until);
  if (!change) return { say: noted, effects };
  const again = planAgain(world, plots, change);
  return { ...again, say: [...noted, ...again.say], effects: [...effects, ...(again.effects ?? [])] };
}

/** A lack with its end is a date that the plan must keep. */
function lackUntil(what: Trouble, until: Day | null): SeasonChange | null {
  if (until === null) return null;
  if (what === 'no-water') return { waterFrom: until };
  return what === 'no-machine' ? { machineFrom: until } : null;
}

/** What the changed dates mean: the next steps anew, or the question that they raise. */
function planAgain(world: World, plots: readonly PlotWorld[], change: SeasonChange): Part {
  const plans = plots.map((plot) => planned(world, plot, { season: change }));
  const told =
    askWaysOut(world, plans) ??
    tellNext(world, plans, { named: true, after: change.waterFrom === undefined ? 'plough' : 'soak' });
  const changes: Effect[] = plots.map(({ seasonId }) => ({ do: 'change-season', seasonId, change }));
  return { ...told, effects: [...changes, ...remindEffects(world, plans), ...(told.effects ?? [])] };
}
