/** What confirmed screens hand to the conversation: the readings that a text with the same meaning would have. */
import type { Activity } from '../../agronomy/season.ts';
import type { Reading, Trouble } from '../../hear/reading.ts';
import { type Day, isoDay } from '../../plan/day.ts';
import type { PlotWorld } from '../world.ts';
import type { Entry, Move } from './screen.ts';

const doing = (reading: Reading, words: string, language?: string): Move => {
  const entry: Entry = { readings: [reading], words, ...(language !== undefined && { language }) };
  return { go: 'do', entry };
};

/** "ploughed plot 3 yesterday", with nothing assumed. */
export function reportDone(plot: PlotWorld, activity: Activity, on: Day): Move {
  const what = { kind: 'report', activity, stage: 'finished', measures: {}, picked: true } as const;
  const day = isoDay(on);
  return doing({ ...what, plots: [plot.number], on: day, assumed: [] }, `${activity} ${plot.number} ${day}`);
}

/** "spots 3: 4 6 9 12 5"; without depths the conversation says why there is nothing to survey. */
export function levelSurveyed(plot: PlotWorld, depthsCm: readonly number[]): Move {
  const what = { kind: 'sum', sum: 'level', bare: [], assumed: [] } as const;
  const words = `level ${plot.number}: ${depthsCm.join(' ')}`;
  return doing({ ...what, plots: [plot.number], values: depthsCm, depthsCm }, words);
}

/** A trouble on one plot; `words` go to the agent's list. */
export function troubleTold(plot: PlotWorld, what: Trouble, words: string): Move {
  return doing({ kind: 'trouble', what, plots: [plot.number], until: null, assumed: [] }, words);
}

/** What is next, of all plots; or the dates of one. */
export function asked(about: 'next' | 'dates', plots: readonly string[]): Move {
  return doing({ kind: 'ask', about, plots, assumed: [] }, `${about} ${plots.join(' ')}`);
}

export function languagePicked(lang: string): Move {
  return doing({ kind: 'account', what: 'language', text: lang, assumed: [] }, `language ${lang}`, lang);
}

/** The number of an answer that ended in a question. */
export function picked(pick: number): Move {
  return doing({ kind: 'answer', answer: { pick }, assumed: [] }, String(pick));
}
