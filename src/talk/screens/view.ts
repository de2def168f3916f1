/** What a screen offers: a list to pick from, a question for a number, or a text; with where each key leads. */
import type { Message } from '../../say/message.ts';
import type { PlotWorld } from '../world.ts';
import { fits } from './layout.ts';
import { type Move, type Screen, type ScreenWorld, to } from './screen.ts';

export interface Option {
  readonly label: string;
  readonly leads: Move;
}

export type View =
  | {
      readonly kind: 'list';
      readonly head: readonly string[];
      readonly options: readonly Option[];
      /** The number of the first option on a page; 1 where none is given. */
      readonly first?: number;
      readonly page: number;
      /** The same list on another page. */
      readonly turned: (page: number) => Move;
      readonly back: Option;
    }
  | {
      readonly kind: 'number';
      readonly head: readonly string[];
      /** 0 is a number like the others here: `back` has a key of its own. */
      readonly most: number;
      /** Numbers may have one decimal; else they are whole. */
      readonly tenths?: boolean;
      readonly take: (number: number) => Move;
      readonly back: Option;
    }
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly page: number;
      readonly turned: (page: number) => Move;
      /** So many numbers answer the question that the text ends in. */
      readonly picks: number;
      readonly pick: (number: number) => Move;
      readonly back: Option;
    };

/** One message in the phone's language. */
export function line({ speak }: ScreenWorld, key: string, values?: Message['values']): string {
  return speak({ sentences: [values ? { key, values } : { key }] });
}

/** A list that has but one page to be turned to: short ones. */
export const UNTURNED = { page: 0, turned: (): Move => ({ go: 'again' }) } as const;

/** The plot as kept in a screen; null when the phone has it no longer. */
export function plotOf({ world }: ScreenWorld, plotId: string): PlotWorld | null {
  return world.plots.find(({ id }) => id === plotId) ?? null;
}

/** "Back", to a screen. */
export function backTo(its: ScreenWorld, screen: Screen): Option {
  return { label: line(its, 'screen.back'), leads: to(screen) };
}

/** The first of two ways to say it that leaves room for one option and the way back; the shorter one where neither does. */
export function roomy(its: ScreenWorld, option: string, long: string, short: string): string {
  const rest = [`1 ${option}`, `0 ${line(its, 'screen.back')}`, line(its, 'screen.not-offered')];
  return fits([long, ...rest]) ? long : short;
}
