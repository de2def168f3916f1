/** The guided survey: the line asks for the depth of water spot by spot, four corners and the middle, then more if uneven. */
import { figure } from '../agronomy/rulebook.ts';
import { levelSurvey } from '../agronomy/sums/level-survey.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { TextEvent } from './event.ts';
import type { Standing } from './state.ts';
import { sumRefused } from './sum-refused.ts';
import { type Part, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** Four corners and the middle; halfway along each side when those are uneven. */
const FIRST_SPOTS = 5;
const ALL_SPOTS = 9;
const CORNERS = 4;

type Survey = Standing & { readonly at: 'survey' };

/** Asks for the first corner. */
export function askFirstSpot(plot: PlotWorld): Part {
  return {
    say: [{ key: 'sum.survey', values: { plot: plot.number } }, spotQuestion(0)],
    standing: { at: 'survey', plotId: plot.id, depthsCm: [] },
    topic: { plotId: plot.id, activity: null, sum: 'level' },
  };
}

/**
 * Takes the depths of one text and asks for the next spot; null when the text is about something else. `done` is told all
 * depths when there are enough.
 */
export function answerSpot(
  world: World,
  standing: Survey,
  event: TextEvent,
  done: (plot: PlotWorld, depthsCm: readonly number[]) => Part,
): Part | null {
  const plot = world.plots.find(({ id }) => id === standing.plotId);
  if (!plot || !isFigures(event)) return null;
  const depthsCm = [...standing.depthsCm, ...event.details.numbers].slice(0, ALL_SPOTS);
  const most = figure(world.rulebook, 'sum.spot-depth.max');
  const wrong = event.details.numbers.find((depth) => depth < 0 || depth > most);
  if (wrong !== undefined) return { ...sumRefused({ refused: 'depth-over', what: String(wrong) }), standing };
  const enough =
    depthsCm.length >= ALL_SPOTS || (depthsCm.length === FIRST_SPOTS && isEven(world, plot, depthsCm));
  if (enough) return done(plot, depthsCm);
  const more = depthsCm.length === FIRST_SPOTS ? saying('sum.survey-more').say : [];
  return { say: [...more, spotQuestion(depthsCm.length)], standing: { ...standing, depthsCm } };
}

/** Numbers and nothing that means something else: "6", "6 cm", "6 7". */
function isFigures({ heard, details }: TextEvent): boolean {
  if (details.numbers.length === 0) return false;
  return heard.readings.every(({ kind }) => kind === 'answer') || heard.readings.length === 0;
}

function isEven(world: World, plot: PlotWorld, depthsCm: readonly number[]): boolean {
  const survey = levelSurvey({ depthsCm, areaHa: plot.season.areaHa }, world.rulebook);
  return isRefusal(survey) || survey.isLevel;
}

function spotQuestion(at: number) {
  if (at < CORNERS) return { key: 'sum.spot-corner', values: { number: at + 1 } };
  if (at === CORNERS) return { key: 'sum.spot-middle' };
  return { key: 'sum.spot-side', values: { number: at - CORNERS } };
}
