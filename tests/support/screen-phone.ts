/** Numbered screens on a phone without a database: keys go through the real screens, step and saying; effects are kept in memory. */

import { readVoices } from '../../src/sweeps/read-voices.ts';
import type { Effect } from '../../src/talk/effect.ts';
import { eventOfReadings } from '../../src/talk/event-of-readings.ts';
import { answerScreen } from '../../src/talk/screens/answer.ts';
import { pressAll } from '../../src/talk/screens/press.ts';
import { type Entry, MAIN, type Screen, type ScreenWorld } from '../../src/talk/screens/screen.ts';
import { showScreen } from '../../src/talk/screens/show.ts';
import { step } from '../../src/talk/step.ts';
import { day } from './seasons.ts';
import { ASHA, ASHAS, type Kept, performed, SCHEME, worldOn } from './small-phone.ts';

export const VOICES = readVoices();
/** Each under its own name. */
export const LANGUAGES = VOICES.map((voice) => ({
  lang: voice.lang,
  name: voice.say({ sentences: [{ key: 'account.language-name' }] }),
}));
/** A Wednesday. */
export const TODAY = day('2027-03-10');

/** Asha, who speaks this language. */
export const speaking = (lang: string, kept: Kept = ASHAS): Kept => ({
  ...kept,
  people: [{ ...ASHA, lang }],
  scheme: { ...SCHEME, languages: LANGUAGES.map((one) => one.lang) },
});

/** What the screens of this phone may know. */
export function screenWorld(kept: Kept, today = TODAY): ScreenWorld {
  const voice = voiceOf(kept);
  const world = worldOn(kept, today);
  return { world, speak: (saying) => voice.say(saying), languages: LANGUAGES };
}

function voiceOf({ people }: Kept) {
  const voice = VOICES.find(({ lang }) => lang === people[0]?.lang) ?? VOICES[0];
  if (!voice) throw new Error('no language is there');
  return voice;
}

/** What one hit came to. */
export interface Hit {
  readonly shown: string;
  readonly ended: boolean;
  readonly effects: readonly Effect[];
}

/** A session: each call is one hit with its keys. */
export function session(start: Kept, first: Screen = MAIN, mayDouble = false) {
  const screenWorldNow = () => ({ ...screenWorld(kept), mayDouble });
  let [kept, screen] = [start, first];
  const carryOut = (entry: Entry): Hit => {
    const batch = `u${kept.turn + 1}`;
    const lang = voiceOf(kept).lang;
    const event = eventOfReadings({ batch, text: entry.words, lang, ...entry });
    const { state, effects } = step(kept.state, event, worldOn(kept, TODAY));
    kept = effects.reduce(performed(batch, TODAY), { ...kept, state, turn: kept.turn + 1 });
    const said = effects.find((effect) => effect.do === 'say');
    screen = answerScreen(said ? voiceOf(kept).say(said.saying) : '', state);
    return { shown: showScreen(screenWorldNow(), screen), ended: false, effects };
  };
  return {
    keys: (...keys: readonly string[]): Hit => {
      const pressed = pressAll(screenWorldNow(), screen, keys);
      if (pressed.kind === 'end') return { shown: '', ended: true, effects: [] };
      if (pressed.kind === 'entry') return carryOut(pressed.entry);
      screen = pressed.screen;
      return { shown: showScreen(screenWorldNow(), screen, pressed.wrong), ended: false, effects: [] };
    },
    screen: () => screen,
    kept: () => kept,
  };
}
