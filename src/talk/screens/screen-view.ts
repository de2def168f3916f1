/** The view of every screen; of a screen whose plot is gone, the main one. */
import type { PlotWorld } from '../world.ts';
import { picked } from './entries.ts';
import { languageView, mainView, plotView, resumeView } from './main-views.ts';
import { daysAgoView, spotView, sureSurveyView } from './number-views.ts';
import { activityView, dayView, sureReportView } from './report-views.ts';
import { MAIN, type Screen, type ScreenWorld, to } from './screen.ts';
import { sureTroubleView, troubleView } from './trouble-views.ts';
import { backTo, line, plotOf, UNTURNED, type View } from './view.ts';

type OfPlot = Extract<Screen, { readonly plotId: string }>;

/** What the screen offers in this world. */
export function viewOf(its: ScreenWorld, screen: Screen): View {
  switch (screen.at) {
    case 'main':
      return mainView(its);
    case 'plot':
      return plotView(its, screen);
    case 'language':
      return languageView(its, screen);
    case 'answer':
      return answerView(its, screen);
    case 'sure-pick':
      return surePickView(its, screen);
    case 'resume':
      return resumeView(its, screen);
    default: {
      const plot = plotOf(its, screen.plotId);
      return plot ? viewOnPlot(its, screen, plot) : mainView(its);
    }
  }
}

function viewOnPlot(its: ScreenWorld, screen: OfPlot, plot: PlotWorld): View {
  switch (screen.at) {
    case 'activity':
      return activityView(its, screen, plot);
    case 'day':
      return dayView(its, screen, plot);
    case 'days-ago':
      return daysAgoView(its, screen, plot);
    case 'sure-report':
      return sureReportView(its, screen, plot);
    case 'spot':
      return spotView(its, screen, plot);
    case 'sure-survey':
      return sureSurveyView(its, screen, plot);
    case 'trouble':
      return troubleView(its, screen, plot);
    case 'sure-trouble':
      return sureTroubleView(its, screen, plot);
  }
}

function answerView(its: ScreenWorld, screen: Screen & { at: 'answer' }): View {
  const { text, page, picks } = screen;
  const back = { label: line(its, 'screen.menu'), leads: to(MAIN) };
  const turned = (next: number) => to({ ...screen, page: next });
  const pick = (number: number) =>
    its.mayDouble ? to({ at: 'sure-pick', pick: number, answer: screen }) : picked(number);
  return { kind: 'text', text, page, picks, back, turned, pick };
}

/** "Answer 2." 1 or 2 sends it. */
function surePickView(its: ScreenWorld, { pick, answer, key = 1 }: Screen & { at: 'sure-pick' }): View {
  return {
    ...{ kind: 'list', head: [line(its, 'screen.pick', { number: pick })], ...UNTURNED, first: key },
    options: [{ label: line(its, 'screen.send'), leads: picked(pick) }],
    back: backTo(its, answer),
  };
}
