/** "Level plot 3: 4 6 9 12 5": the survey of a flooded plot. It is recorded, so that the plan knows how level the plot is. */
import { plantingStep } from '../agronomy/frame.ts';
import { figure } from '../agronomy/rulebook.ts';
import { type LevelSurvey, levelSurvey } from '../agronomy/sums/level-survey.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { Reading, SumReading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';
import { numbersFor } from './numbers.ts';
import { dueWords, which } from './phrases.ts';
import { planned } from './planned.ts';
import { findPlots } from './plots.ts';
import type { Topic } from './state.ts';
import { sumRefused } from './sum-refused.ts';
import { tidy } from './sum-words.ts';
import { askFirstSpot } from './survey.ts';
import { takeSettled } from './take-reports.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** Said of the spots by the report's own checks; the survey says it better. */
const SAID_BY_SURVEY = 'check.level-range-hi';

/** The survey of the figures in the text; without any, the spots are asked one by one. */
export function answerLevel(world: World, { depthsCm = [] }: SumReading, plot: PlotWorld): Part {
  if (isPlanted(world, plot)) return saying('sum.planted', { which: which([plot]) });
  if (depthsCm.length === 0) return askFirstSpot(plot);
  return surveyed(world, plot, depthsCm);
}

/** "Levelled plot 3: 4 6 9 12 5": one report with a whole survey is that survey, on its day; null for any other text. */
export function surveyReported(world: World, readings: readonly Reading[]): Part | null {
  const [only, ...others] = readings;
  if (only?.kind !== 'report' || only.activity !== 'level' || others.length > 0) return null;
  const { spotsCm = [] } = only.measures;
  const found = findPlots(world, only.plots);
  const isWhole = spotsCm.length >= figure(world.rulebook, 'sum.spots.least') && only.stage === 'finished';
  if (!isWhole || found.kind !== 'plots' || found.plots.length > 1) return null;
  const [plot] = found.plots;
  const on = only.on === null ? null : parseDay(only.on);
  return plot && on !== null && !isPlanted(world, plot) ? surveyed(world, plot, spotsCm, on) : null;
}

/** On a plot that is planted nobody digs. */
export function isPlanted(world: World, plot: PlotWorld): boolean {
  const { steps } = planned(world, plot).plan;
  return steps[plantingStep(steps)]?.status === 'done';
}

/** The answer to a survey, and its record: a level plot is levelled, levelling an uneven one is not finished. */
export function surveyed(
  world: World,
  plot: PlotWorld,
  depthsCm: readonly number[],
  on: Day = world.today,
): Part {
  const survey = levelSurvey({ depthsCm, areaHa: plot.season.areaHa }, world.rulebook);
  if (isRefusal(survey)) return sumRefused(survey);
  if (depthsCm.every((depth) => depth === 0)) return saying('sum.no-water-yet');
  const report: NewReport = {
    seasonId: plot.seasonId,
    activity: 'level',
    stage: survey.isLevel ? 'finished' : 'started',
    on,
    measures: { spotsCm: survey.depthsCm },
  };
  const taken = takeSettled(world, [report], []);
  if (survey.isLevel)
    return withEcho(taken, [{ key: 'sum.level-even', values: { range: survey.rangeCm } }], true);
  return withEcho(taken, [...toldOf(world, plot, survey), ...againOf(world, plot, report)], false);
}

/** What the survey found, behind what was written down, or in its place; with a way on of its own, what follows may go. */
function withEcho(part: Part, found: readonly Sentence[], kept: boolean): Part {
  const echo = part.say.findIndex(({ key }) => key.startsWith('echo.'));
  const rest = part.say.slice(echo + 1).filter(({ key }) => key !== SAID_BY_SURVEY);
  const plotId = part.topic?.plotId;
  const topic: Topic | undefined =
    plotId === undefined ? undefined : { plotId, activity: null, sum: 'level' };
  const [earlier, others] = [rest.filter(isEarlier), rest.filter((one) => !isEarlier(one))];
  const next = others.findIndex(({ key }) => key.startsWith('next.'));
  const after = others.map((one, i) => ({ ...one, spare: !kept || i !== Math.max(0, next) }));
  return {
    ...part,
    ...(topic && { topic }),
    say: [...part.say.slice(0, kept ? echo + 1 : echo), ...found, ...earlier.map(asSpare), ...after],
  };
}

/** Earlier work that is taken as done. */
const isEarlier = ({ key }: Sentence) => key.startsWith('echo.');
const asSpare = (one: Sentence): Sentence => ({ ...one, spare: true });

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

/** When to level again, by the plan in which levelling is not finished; and what it costs to leave the plot as it is. */
function againOf(world: World, plot: PlotWorld, report: NewReport): Sentence[] {
  const { steps } = planned(world, plot, { added: [report] }).plan;
  const on = steps.find(({ activity }) => activity === 'level')?.due ?? null;
  if (on === null) return [];
  const again: Sentence = { key: 'sum.level-again', values: { due: dueWords('level', on, world.today) } };
  return [again, ...costOf(world, plot, report, steps[plantingStep(steps)]?.due ?? null)];
}

/** The days that planting waits on a plot that is left so, till seedlings stand clear of the water; none when that is no later. */
function costOf(world: World, plot: PlotWorld, report: NewReport, levelledOn: Day | null): Sentence[] {
  const left = planned(world, plot, { added: [{ ...report, stage: 'finished' }] }).plan.unevenness;
  if (!left || left.daysLost === 0 || (levelledOn !== null && left.plantOn <= levelledOn)) return [];
  return [
    { key: 'sum.level-lost', values: { count: left.daysLost, day: { day: left.plantOn } }, spare: true },
  ];
}
