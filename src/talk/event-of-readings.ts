/** An event that carries readings already understood, such as what was picked on screens: nothing is guessed from words. */
import type { Details } from '../hear/details.ts';
import type { Reading } from '../hear/reading.ts';
import type { TextEvent } from './event.ts';

const NO_DETAILS: Details = {
  numbers: [],
  areasHa: [],
  depthsCm: [],
  tillage: null,
  language: null,
  plots: [],
};

/** What an event of readings is made of; `text` is what is kept as its words, `language` the tag that was picked. */
export interface Understood {
  readonly batch: string;
  readonly text: string;
  readonly lang: string;
  readonly readings: readonly Reading[];
  readonly language?: string;
}

/** The same event that hearing a text with this meaning would give. */
export function eventOfReadings({ batch, text, lang, readings, language }: Understood): TextEvent {
  const details = { ...NO_DETAILS, language: language ?? null };
  return { kind: 'text', batch, text, lang, heard: { readings, unclear: null }, details };
}
