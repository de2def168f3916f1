/** A scheme's own unit of area against the words of the languages that the line speaks. */
import { areaUnitMistakes, type WordTaken } from '../scheme/area-unit.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import type { Voice } from './line.ts';

/** Which words the languages have; a language without a voice has none. */
export function takenIn(voices: readonly Voice[]): WordTaken {
  return (word, lang) => voices.find((voice) => voice.lang === lang)?.whyTaken(word) ?? null;
}

/** Throws, with every mistake, when the unit was kept by a release whose languages still left its words free. */
export function checkKeptUnit({ world }: SchemeEntry, taken: WordTaken): void {
  const mistakes = areaUnitMistakes(world.areaUnit, world.languages, taken);
  if (mistakes.length === 0) return;
  throw new Error(
    `the unit of area kept for ${world.name} no longer fits; mend it in the scheme's file and load the file:\n${mistakes.map(({ what }) => what).join('\n')}`,
  );
}
