/** A screen as the text that the phone shows. */
import { type Frame, listLines, listPages, textPages } from './layout.ts';
import type { Screen, ScreenWorld } from './screen.ts';
import { viewOf } from './screen-view.ts';
import { line, type View } from './view.ts';

export const BACK = '0';
export const MORE = '9';
/**
 * Back where a number is asked for: there 0 is a number. Three nines are quickly keyed, hold no `*`, and are more than any
 * number that is asked for.
 */
export const BACK_FROM_NUMBER = '999';

/** The screen's text; `wrong` puts the line about a key that is not offered before it. */
export function showScreen(its: ScreenWorld, screen: Screen, wrong = false): string {
  const view = viewOf(its, screen);
  const lines = linesOf(its, view);
  return (wrong ? [noticeOf(its, view), ...lines] : lines).join('\n');
}

function linesOf(its: ScreenWorld, view: View): readonly string[] {
  const frame = frameOf(its, view);
  if (view.kind === 'number') return [...view.head, ...frame.foot];
  const pages = pagesOf(its, view);
  const page = Math.min(view.page, pages.length - 1);
  const isLast = page === pages.length - 1;
  if (view.kind === 'list') return listLines(labelsOn(pages[page]), frame, isLast);
  const text = String(pages[page] ?? '');
  return [text, ...(isLast ? [] : [frame.more]), ...frame.foot];
}

const labelsOn = (page: string | readonly string[] | undefined) => (Array.isArray(page) ? page : []);

/** The pages of a list as labels, of a text as pieces. */
export function pagesOf(
  its: ScreenWorld,
  view: Exclude<View, { kind: 'number' }>,
): readonly (string | readonly string[])[] {
  const frame = frameOf(its, view);
  if (view.kind === 'text') return textPages(view.text, frame);
  return listPages(
    view.options.map(({ label }) => label),
    frame,
  );
}

function frameOf(its: ScreenWorld, view: View): Frame {
  const back = view.kind === 'number' ? BACK_FROM_NUMBER : BACK;
  return {
    head: view.kind === 'text' ? [] : view.head,
    more: `${MORE} ${line(its, 'screen.more')}`,
    foot: [`${back} ${view.back.label}`],
    notice: noticeOf(its, view),
    first: view.kind === 'list' ? view.first : undefined,
  };
}

function noticeOf(its: ScreenWorld, view: View): string {
  return view.kind === 'number'
    ? line(its, 'screen.number', { most: view.most })
    : line(its, 'screen.not-offered');
}
