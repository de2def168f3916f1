/** "Level plot 3: 4 6 9 12 5": the survey of a flooded plot. It is recorded, so that the plan knows how level the plot is. */
import { figure } from '../agronomy/rulebook.ts';
import { type LevelSurvey, levelSurvey } from '../agronomy/sums/level-survey.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { ReportReading, SumReading } from '../hear/reading.ts';
import { isoDay } from '../plan/day.ts';
import { sumRefused } from './sum-refused.ts';
import { askFirstSpot } from './survey.ts';
import { takeReports } from './take-reports.ts';
import type { Part, Sentence } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** Said of the spots by the report's own checks; the survey says it better. */
const SAID_BY_SURVEY = 'check.level-range-hi';

/** The survey of the figures in the text; without any, the spots are asked one by one. */
export function answerLevel(world: World, { values }: SumReading, plot: PlotWorld): Part {
  if (values.length === 0) return askFirstSpot(plot);
  return surveyed(world, plot, values);
}

/** The answer to a survey, and its record. */
export function surveyed(world: World, plot: PlotWorld, depthsCm: readonly number[]): Part {
  const survey = levelSurvey({ depthsCm, areaHa: plot.season.areaHa }, world.rulebook);
  if (isRefusal(survey)) return sumRefused(survey);
  const report: ReportReading = {
    kind: 'report',
    activity: 'level',
    stage: 'finished',
    plots: [plot.number],
    on: isoDay(world.today),
    measures: { spotsCm: survey.depthsCm },
    assumed: ['stage', 'on'],
  };
  const [first, ...others] = takeReports(world, [report], []);
  if (!first) return { say: toldOf(world, survey) };
  const told = first.say.filter(({ key }) => key !== SAID_BY_SURVEY);
  const echo = told.findIndex(({ key }) => key.startsWith('echo.'));
  return {
    ...first,
    say: [
      ...told.slice(0, echo + 1),
      ...toldOf(world, survey),
      ...told.slice(echo + 1),
      ...others.flatMap(({ say }) => say),
    ],
  };
}

function toldOf(world: World, survey: LevelSurvey): Sentence[] {
  const { rangeCm, isLevel, moveM3, barrows } = survey;
  const values = { range: rangeCm, max: figure(world.rulebook, 'level-range.max') };
  if (isLevel) return [{ key: 'sum.level-even', values: { range: rangeCm } }];
  const spots = (which: LevelSurvey['cut']) => ({ list: which.map(({ spot }) => spot) });
  const move = { m3: Math.round(moveM3), barrows };
  return [
    { key: 'sum.level-uneven', values },
    { key: 'sum.level-move', values: { cut: spots(survey.cut), fill: spots(survey.fill), ...move } },
  ];
}
