/** Where a session of numbered screens stands, and what a key leads to: plain data, kept as JSON between two hits. */
import type { Activity } from '../../agronomy/season.ts';
import type { Reading, Trouble } from '../../hear/reading.ts';
import type { Day } from '../../plan/day.ts';
import type { Saying } from '../../say/message.ts';
import type { World } from '../world.ts';

/** Raised whenever a kept screen of an older shape could be misread; older ones are dropped. */
export const SCREEN_VERSION = 1;

/** Work that begins with picking a plot. */
export type PlotTask = 'report' | 'dates' | 'survey' | 'trouble';

export interface Answer {
  readonly at: 'answer';
  readonly text: string;
  readonly page: number;
  readonly picks: number;
}

/** Of a screen that has to be confirmed. */
interface Keyed {
  /** The key that confirms; 1 where none is given. */
  readonly key?: 1 | 2;
}

export type Screen =
  | { readonly at: 'main' }
  | { readonly at: 'plot'; readonly task: PlotTask; readonly page: number }
  | { readonly at: 'activity'; readonly plotId: string; readonly page: number }
  | { readonly at: 'day'; readonly plotId: string; readonly activity: Activity }
  | { readonly at: 'days-ago'; readonly plotId: string; readonly activity: Activity }
  /** What will be recorded is shown; nothing is before it is confirmed here. */
  | (Keyed & {
      readonly at: 'sure-report';
      readonly plotId: string;
      readonly activity: Activity;
      readonly on: Day;
    })
  | { readonly at: 'spot'; readonly plotId: string; readonly depthsCm: readonly number[] }
  | (Keyed & { readonly at: 'sure-survey'; readonly plotId: string; readonly depthsCm: readonly number[] })
  | { readonly at: 'trouble'; readonly plotId: string; readonly page: number }
  | (Keyed & { readonly at: 'sure-trouble'; readonly plotId: string; readonly what: Trouble })
  | { readonly at: 'language'; readonly page: number }
  /** What the conversation answered; `picks` numbers are offered in it when it ends in a question. */
  | Answer
  /** Where a hit may come again as a key pressed anew: a number of an answer, to be confirmed. */
  | (Keyed & { readonly at: 'sure-pick'; readonly pick: number; readonly answer: Answer })
  /** A session was lost on the way: go on with it, or start anew. */
  | { readonly at: 'resume'; readonly left: Screen };

/** What the conversation is to take, as a text that is understood already. */
export interface Entry {
  readonly readings: readonly Reading[];
  /** What is kept as its words. */
  readonly words: string;
  /** The language that was picked. */
  readonly language?: string;
}

/** What a key leads to. */
export type Move =
  | { readonly go: 'to'; readonly screen: Screen }
  | { readonly go: 'do'; readonly entry: Entry }
  | { readonly go: 'end' }
  /** The key is not offered here: the same screen once more, with a short line. */
  | { readonly go: 'again' };

/** All that showing and pressing may know. */
export interface ScreenWorld {
  readonly world: World;
  /** Says something in the phone's language. */
  readonly speak: (saying: Saying) => string;
  /** Languages that can be picked, each under its own name. */
  readonly languages: readonly { readonly lang: string; readonly name: string }[];
  /** The carrier's second delivery of a hit cannot be told from a key pressed twice: no key leads to and confirms a record. */
  readonly mayDouble?: boolean;
}

export const MAIN: Screen = { at: 'main' };

/** To another screen. */
export function to(screen: Screen): Move {
  return { go: 'to', screen };
}

/** Whether leaving this screen unfinished loses something that was keyed in. */
export function isUnderWay({ at }: Screen): boolean {
  return at !== 'main' && at !== 'answer' && at !== 'language';
}

/** Whether the next key records something: it must be pressed by somebody who has seen the screen. */
export function isSure(screen: Screen): screen is Sure {
  return SURE.includes(screen.at);
}

type Sure = Extract<Screen, Keyed & { readonly at: `sure-${string}` }>;
const SURE: readonly Screen['at'][] = ['sure-report', 'sure-survey', 'sure-trouble', 'sure-pick'];

/** The screen confirmed by another key than the first of the hit that led to it: that is the one pressed when it comes again. */
export function keyedApart(screen: Sure, first: string): Screen {
  return { ...screen, key: first === '1' ? 2 : 1 };
}
