/** What a key leads to on a screen. Several keys of one hit are pressed in turn, but nobody confirms what was not shown. */
import { clean } from '../../hear/fold.ts';
import { type Entry, isSure, keyedApart, type Move, type Screen, type ScreenWorld } from './screen.ts';
import { viewOf } from './screen-view.ts';
import { BACK, BACK_FROM_NUMBER, MORE, pagesOf } from './show.ts';
import type { View } from './view.ts';

/** Where keys have led: to a screen (shown with a short line after a wrong key), to an entry, or to the end. */
export type Pressed =
  | { readonly kind: 'screen'; readonly screen: Screen; readonly wrong: boolean }
  | { readonly kind: 'entry'; readonly from: Screen; readonly entry: Entry }
  | { readonly kind: 'end' };

/**
 * Presses keys in their order. It stops at the first key that is not offered, at an entry, at the end, and before a screen that
 * has to be confirmed: keys behind that were not meant for it.
 */
export function pressAll(its: ScreenWorld, start: Screen, keys: readonly string[]): Pressed {
  let screen = start;
  for (const key of keys) {
    const move = press(its, screen, key);
    if (move.go === 'end') return { kind: 'end' };
    if (move.go === 'do') return { kind: 'entry', from: screen, entry: move.entry };
    if (move.go === 'again') return { kind: 'screen', screen, wrong: true };
    screen = move.screen;
    if (!isSure(screen)) continue;
    return {
      kind: 'screen',
      screen: its.mayDouble ? keyedApart(screen, bare(keys[0] ?? '')) : screen,
      wrong: false,
    };
  }
  return { kind: 'screen', screen, wrong: false };
}

const bare = (texted: string) => clean(texted).trim();

/** One key on one screen; digits of any script count. */
export function press(its: ScreenWorld, screen: Screen, texted: string): Move {
  const key = bare(texted);
  const view = viewOf(its, screen);
  if (view.kind === 'number') return pressNumber(view, key);
  if (key === BACK) return view.back.leads;
  const pages = pagesOf(its, view);
  const page = Math.min(view.page, pages.length - 1);
  const isLast = page === pages.length - 1;
  if (key === MORE && !isLast) return view.turned(page + 1);
  if (!/^[1-8]$/.test(key)) return { go: 'again' };
  if (view.kind === 'text')
    return isLast && Number(key) <= view.picks ? view.pick(Number(key)) : { go: 'again' };
  const before = pages.slice(0, page).reduce((sum, one) => sum + one.length, 0);
  const here = pages[page]?.length ?? 0;
  const place = Number(key) - (view.first ?? 1);
  const option = place < here ? view.options[before + place] : undefined;
  return option?.leads ?? { go: 'again' };
}

const WHOLE = /^\d{1,3}$/;
/** Point and comma both mark decimals: keypads have one or the other. */
const TENTHS = /^\d{1,3}(?:[.,]\d)?$/;

function pressNumber(view: View & { kind: 'number' }, key: string): Move {
  if (key === BACK_FROM_NUMBER) return view.back.leads;
  const number = (view.tenths ? TENTHS : WHOLE).test(key) ? Number(key.replace(',', '.')) : null;
  return number !== null && number <= view.most ? view.take(number) : { go: 'again' };
}
