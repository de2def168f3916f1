/** Screens that ask for a number: how many days ago, and the depth of water spot by spot; and what they lead to. */
import { figure } from '../../agronomy/rulebook.ts';
import { activityName, which } from '../phrases.ts';
import { isPlanted } from '../sum-level.ts';
import { areEnough, spotQuestion } from '../survey.ts';
import type { PlotWorld } from '../world.ts';
import { levelSurveyed } from './entries.ts';
import { fits } from './layout.ts';
import { MAIN, type Move, type Screen, type ScreenWorld, to } from './screen.ts';
import { backTo, line, roomy, UNTURNED, type View } from './view.ts';

/** Days are told with two digits; what is longer ago goes into a text with its date. */
const MOST_DAYS_AGO = 99;

/** On a plot that is planted nobody digs: the conversation says so at once. */
export function beginSurvey({ world }: ScreenWorld, plot: PlotWorld): Move {
  return isPlanted(world, plot) ? levelSurveyed(plot, []) : to({ at: 'spot', plotId: plot.id, depthsCm: [] });
}

/** How many days ago it was done; 0 is today. */
export function daysAgoView(its: ScreenWorld, screen: Screen & { at: 'days-ago' }, plot: PlotWorld): View {
  const { plotId, activity } = screen;
  const { today } = its.world;
  const what = { which: which([plot]), activity: activityName(activity) };
  return {
    kind: 'number',
    head: [line(its, 'screen.work', what), line(its, 'screen.days-ago')],
    most: MOST_DAYS_AGO,
    take: (days) => to({ at: 'sure-report', plotId, activity, on: today - days }),
    back: backTo(its, { at: 'day', plotId, activity }),
  };
}

/** One spot's depth; back takes the one before away. */
export function spotView(
  its: ScreenWorld,
  { plotId, depthsCm }: Screen & { at: 'spot' },
  plot: PlotWorld,
): View {
  const most = figure(its.world.rulebook, 'sum.spot-depth.max');
  const before: Screen =
    depthsCm.length === 0 ? MAIN : { at: 'spot', plotId, depthsCm: depthsCm.slice(0, -1) };
  return {
    kind: 'number',
    head: spotHead(its, depthsCm.length, plot),
    most,
    tenths: true,
    take: (depth) => spotTaken(its, plot, [...depthsCm, depth]),
    back: backTo(its, before),
  };
}

function spotTaken({ world }: ScreenWorld, plot: PlotWorld, depthsCm: readonly number[]): Move {
  const at = areEnough(world, plot, depthsCm) ? 'sure-survey' : 'spot';
  return to({ at, plotId: plot.id, depthsCm });
}

/** The first spot says how to measure, where there is room for it. */
function spotHead(its: ScreenWorld, before: number, plot: PlotWorld): readonly string[] {
  const question = its.speak({ sentences: [spotQuestion(before)] });
  if (before > 0) return [question];
  const how = [line(its, 'sum.survey', { plot: plot.number }), question];
  const rest = [line(its, 'screen.back'), line(its, 'screen.not-offered')];
  return fits([...how, ...rest, '999 ']) ? how : [its.speak({ sentences: [which([plot])] }), question];
}

/** The depths as they will be recorded. */
export function sureSurveyView(
  its: ScreenWorld,
  { plotId, depthsCm, key = 1 }: Screen & { at: 'sure-survey' },
  plot: PlotWorld,
): View {
  const depths = depthsCm.join(' ');
  const record = line(its, 'screen.record');
  const whole = line(its, 'screen.depths', { which: which([plot]), depths });
  const alone = roomy(its, record, line(its, 'screen.depths-alone', { depths }), depths);
  const head = roomy(its, record, whole, alone);
  return {
    ...{ kind: 'list', head: [head], ...UNTURNED, first: key },
    options: [{ label: record, leads: levelSurveyed(plot, depthsCm) }],
    back: backTo(its, { at: 'spot', plotId, depthsCm: depthsCm.slice(0, -1) }),
  };
}
