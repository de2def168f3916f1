/** The guided survey: the line asks for the depth of water spot by spot, four corners and the middle, then more if uneven. */
import { figure } from '../agronomy/rulebook.ts';
import { levelSurvey } from '../agronomy/sums/level-survey.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { TextEvent } from './event.ts';
import type { Standing } from './state.ts';
import { sumRefused } from './sum-refused.ts';
import { type Part, type Sentence, saying } from './turn.ts';
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
 * Takes the depths of one text and asks for the next spot. A text that is no depth is asked again; null when it is about
 * something else. `done` is told all depths when there are enough.
 */
export function answerSpot(
  world: World,
  standing: Survey,
  event: TextEvent,
  done: (plot: PlotWorld, depthsCm: readonly number[]) => Part,
): Part | null {
  const plot = world.plots.find(({ id }) => id === standing.plotId);
  if (!plot || isOther(event)) return null;
  const told = event.details.depthsCm;
  const question = spotQuestion(standing.depthsCm.length);
  if (told.length === 0) return { say: [{ key: 'sum.one-depth' }, question], standing };
  const most = figure(world.rulebook, 'sum.spot-depth.max');
  const wrong = told.find((depth) => depth < 0 || depth > most);
  if (wrong !== undefined)
    return { say: [...sumRefused({ refused: 'depth-over', what: String(wrong) }).say, question], standing };
  const depthsCm = [...standing.depthsCm, ...told];
  if (depthsCm.length > ALL_SPOTS) return { say: [{ key: 'sum.one-depth' }, question], standing };
  if (areEnough(world, plot, depthsCm)) return done(plot, depthsCm);
  const more = depthsCm.length === FIRST_SPOTS ? saying('sum.survey-more').say : [];
  return { say: [...more, spotQuestion(depthsCm.length)], standing: { ...standing, depthsCm } };
}

/** Nine spots always are; five are when the plot is level by them. */
export function areEnough(world: World, plot: PlotWorld, depthsCm: readonly number[]): boolean {
  return depthsCm.length === ALL_SPOTS || (depthsCm.length === FIRST_SPOTS && isEven(world, plot, depthsCm));
}

/** A text that says something else than a depth; one that is not understood was meant as one. */
function isOther({ heard, details }: TextEvent): boolean {
  if (details.depthsCm.length > 0) return false;
  return heard.readings.some(({ kind }) => kind !== 'answer');
}

function isEven(world: World, plot: PlotWorld, depthsCm: readonly number[]): boolean {
  const survey = levelSurvey({ depthsCm, areaHa: plot.season.areaHa }, world.rulebook);
  return isRefusal(survey) || survey.isLevel;
}

/** Spots are numbered as the answer names them: four corners, the middle, the sides. */
export function spotQuestion(before: number): Sentence {
  const values = { number: before + 1 };
  if (before < CORNERS) return { key: 'sum.spot-corner', values };
  return before === CORNERS ? { key: 'sum.spot-middle', values } : { key: 'sum.spot-side', values };
}
