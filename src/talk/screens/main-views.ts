/** The main screen, the choice of a plot and of a language, and a session that was lost on the way. */
import { which } from '../phrases.ts';
import type { PlotWorld } from '../world.ts';
import { asked, languagePicked } from './entries.ts';
import { beginSurvey } from './number-views.ts';
import { MAIN, type Move, type PlotTask, type Screen, type ScreenWorld, to } from './screen.ts';
import { backTo, line, type Option, UNTURNED, type View } from './view.ts';

/** Six things to do; 0 ends the session. */
export function mainView(its: ScreenWorld): View {
  const option = (key: string, leads: Move): Option => ({ label: line(its, key), leads });
  return {
    ...{ kind: 'list', head: [], ...UNTURNED },
    options: [
      option('screen.report', beginTask(its, 'report')),
      option('screen.next', asked('next', ['all'])),
      option('screen.dates', beginTask(its, 'dates')),
      option('screen.survey', beginTask(its, 'survey')),
      option('screen.trouble', beginTask(its, 'trouble')),
      option('screen.language', to({ at: 'language', page: 0 })),
    ],
    back: option('screen.leave', { go: 'end' }),
  };
}

/** With several plots the plot is asked for; with none the conversation says so. */
function beginTask(its: ScreenWorld, task: PlotTask): Move {
  const [only, ...others] = its.world.plots;
  if (!only) return asked('next', ['all']);
  return others.length > 0 ? to({ at: 'plot', task, page: 0 }) : onPlot(its, task, only);
}

function onPlot(its: ScreenWorld, task: PlotTask, plot: PlotWorld): Move {
  switch (task) {
    case 'report':
      return to({ at: 'activity', plotId: plot.id, page: 0 });
    case 'dates':
      return asked('dates', [plot.number]);
    case 'survey':
      return beginSurvey(its, plot);
    case 'trouble':
      return to({ at: 'trouble', plotId: plot.id, page: 0 });
  }
}

/** The phone's plots, by number and label. */
export function plotView(its: ScreenWorld, { task, page }: Screen & { at: 'plot' }): View {
  const labelled = (plot: PlotWorld) => {
    const name = its.speak({ sentences: [which([plot])] });
    return plot.label === null ? name : `${name} (${plot.label})`;
  };
  return {
    ...{ kind: 'list', page, head: [line(its, 'screen.which-plot')] },
    options: its.world.plots.map((plot) => ({ label: labelled(plot), leads: onPlot(its, task, plot) })),
    turned: (next) => to({ at: 'plot', task, page: next }),
    back: backTo(its, MAIN),
  };
}

/** The scheme's languages, each under its own name. */
export function languageView(its: ScreenWorld, { page }: Screen & { at: 'language' }): View {
  return {
    ...{ kind: 'list', page, head: [line(its, 'screen.which-language')] },
    options: its.languages.map(({ lang, name }) => ({ label: name, leads: languagePicked(lang) })),
    turned: (next) => to({ at: 'language', page: next }),
    back: backTo(its, MAIN),
  };
}

/** "You were not finished": on with it, or from the beginning. */
export function resumeView(its: ScreenWorld, { left }: Screen & { at: 'resume' }): View {
  return {
    ...{ kind: 'list', head: [line(its, 'screen.lost')], ...UNTURNED },
    options: [
      { label: line(its, 'screen.go-on'), leads: to(left) },
      { label: line(its, 'screen.anew'), leads: to(MAIN) },
    ],
    back: { label: line(its, 'screen.leave'), leads: { go: 'end' } },
  };
}
