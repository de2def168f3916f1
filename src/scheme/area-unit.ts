/** A scheme's own unit of area: a local name of a piece of land, and its size. Knows no language; which words are free it is told. */
import { z } from 'zod';
import type { PlacedMistake } from './placed-mistake.ts';

export interface AreaUnit {
  /** What people text for it. The first is said of one; the second, where there is one, of several. */
  readonly words: readonly string[];
  /** Square metres in one of it. */
  readonly m2: number;
}

/** Why a word cannot name the unit in a language, like "already means something"; null when it is free. */
export type WordTaken = (word: string, lang: string) => string | null;

const M2_IN_HA = 10_000;

const LETTERS = /^\p{L}[\p{L}\p{M}]{0,19}$/u;

export const areaUnitSchema = z.strictObject({
  words: z
    .array(z.string().trim().regex(LETTERS, 'one word of letters only, at most 20'))
    .min(1, 'at least one word'),
  m2: z.number().min(1).max(100_000),
});

/** Words that are there twice, or that mean something else in one of the languages. */
export function areaUnitMistakes(
  unit: AreaUnit | undefined,
  languages: readonly string[],
  taken: WordTaken,
): readonly PlacedMistake[] {
  const words = unit?.words ?? [];
  const small = words.map((word) => word.toLowerCase());
  return words.flatMap((word, index) => {
    const path = ['areaUnit', 'words', index];
    if (small.indexOf(small[index] ?? '') < index) return [{ path, what: `"${word}" is there twice` }];
    return languages.flatMap((lang) => {
      const why = taken(word, lang);
      return why === null ? [] : [{ path, what: `"${word}" ${why} in the language "${lang}"` }];
    });
  });
}

/** Hectares in one of the unit. */
export const haIn = ({ m2 }: AreaUnit): number => m2 / M2_IN_HA;

/** Areas are kept to the square metre. */
const kept = (areaHa: number) => Math.round(areaHa * M2_IN_HA);

/**
 * How many of the unit an area is: the shortest figure, with two places at most, that gives the area to the square metre;
 * else the nearest with one place, which may be 0. `unitsIn(0.1, { words: ['tin'], m2: 500 })` is 2.
 */
export function unitsIn(areaHa: number, unit: AreaUnit): number {
  const units = areaHa / haIn(unit);
  const [whole, tenth, hundredth] = [1, 10, 100].map((step) => Math.round(units * step) / step);
  const exact = [whole, tenth, hundredth].find(
    (value) => value !== undefined && kept(value * haIn(unit)) === kept(areaHa),
  );
  return exact ?? tenth ?? 0;
}
