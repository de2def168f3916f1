/** "Level plot 3: 4 6 9 12 5": the survey of a flooded plot. It is recorded, so that the plan knows how level the plot is. */
import { plantingStep } from '../agronomy/frame.ts';
import { stepFor } from '../agronomy/plot-plan.ts';
import { type LevelSurvey, levelSurvey } from '../agronomy/sums/level-survey.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { SumReading } from '../hear/reading.ts';
import { numbersFor } from './numbers.ts';
import { dueWords, which } from './phrases.ts';
import { planned } from './planned.ts';
import type { Topic } from './state.ts';
import { sumRefused } from './sum-refused.ts';
import { tidy } from './sum-words.ts';
import { askFirstSpot } from './survey.ts';
import { takeSettled } from './take-reports.ts';
import type { Part, Sentence } from './turn.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** Said of the spots by the report's own checks; the survey says it better. */
const SAID_BY_SURVEY = 'check.level-range-hi';

/** The survey of the figures in the text; without any, the spots are asked one by one. */
export function answerLevel(world: World, { depthsCm = [] }: SumReading, plot: PlotWorld): Part {
  if (depthsCm.length === 0) return askFirstSpot(plot);
  return surveyed(world, plot, depthsCm);
}

/** The answer to a survey, and its record: a level plot is levelled, levelling an uneven one is not finished. */
export function surveyed(world: World, plot: PlotWorld, depthsCm: readonly number[]): Part {
  const survey = levelSurvey({ depthsCm, areaHa: plot.season.areaHa }, world.rulebook);
  if (isRefusal(survey)) return sumRefused(survey);
  const report: NewReport = {
    seasonId: plot.seasonId,
    activity: 'level',
    stage: survey.isLevel ? 'finished' : 'started',
    on: world.today,
    measures: { spotsCm: survey.depthsCm },
  };
  const taken = takeSettled(world, [report], []);
  if (survey.isLevel)
    return withEcho(taken, [{ key: 'sum.level-even', values: { range: survey.rangeCm } }], true);
  return withEcho(
    taken,
    [...toldOf(world, plot, survey), ...costOf(world, plot, report), ...againOf(world, plot, report)],
    false,
  );
}

/** What the survey found, behind what was written down, or in its place; with a way on of its own, what follows may go. */
function withEcho(part: Part, found: readonly Sentence[], kept: boolean): Part {
  const echo = part.say.findIndex(({ key }) => key.startsWith('echo.'));
  const rest = part.say.slice(echo + 1).filter(({ key }) => key !== SAID_BY_SURVEY);
  const plotId = part.topic?.plotId;
  const topic: Topic | undefined =
    plotId === undefined ? undefined : { plotId, activity: null, sum: 'level' };
  const after = kept ? rest : rest.map((one) => ({ ...one, spare: !one.key.startsWith('echo.') }));
  return {
    ...part,
    ...(topic && { topic }),
    say: [...part.say.slice(0, kept ? echo + 1 : echo), ...found, ...after],
  };
}

function toldOf(world: World, plot: PlotWorld, survey: LevelSurvey): Sentence[] {
  const key = 'sum.level-uneven';
  const values = { which: which([plot]), range: survey.rangeCm, ...numbersFor(world.rulebook, key) };
  return [{ key, values }, moved(survey)];
}

/** Where to cut and to fill; where only one of them stands out, the other is all the rest. */
function moved({ cut, fill, moveM3, barrows }: LevelSurvey): Sentence {
  const spots = (some: LevelSurvey['cut']) => ({ list: some.map(({ spot }) => spot) });
  const values = { m3: tidy(moveM3), barrows };
  if (fill.length === 0) return { key: 'sum.level-cut', values: { ...values, cut: spots(cut) } };
  if (cut.length === 0) return { key: 'sum.level-fill', values: { ...values, fill: spots(fill) } };
  return { key: 'sum.level-move', values: { ...values, cut: spots(cut), fill: spots(fill) } };
}

/** When to level again, by the plan in which levelling is not finished. */
function againOf(world: World, plot: PlotWorld, report: NewReport): Sentence[] {
  const { plan } = planned(world, plot, { added: [report] });
  const [on, plantOn] = [
    stepFor(plan, 'level')?.due ?? null,
    plan.steps[plantingStep(plan.steps)]?.due ?? null,
  ];
  if (on === null || plantOn === null) return [];
  return [
    {
      key: 'check.uneven-again',
      values: { due: dueWords('level', on, world.today), planting: { day: plantOn } },
    },
  ];
}

/** The days that planting waits on a plot that is left so, until seedlings stand clear of the water on its lowest spot. */
function costOf(world: World, plot: PlotWorld, report: NewReport): Sentence[] {
  const left = planned(world, plot, { added: [{ ...report, stage: 'finished' }] }).plan.unevenness;
  if (!left || left.daysLost === 0) return [];
  return [{ key: 'check.uneven-lost', values: { count: left.daysLost, day: { day: left.plantOn } } }];
}
