/** The part of a scheme file that overrides the rulebook: its shape, and what is wrong with it as a whole. */
import { z } from 'zod';
import type { OverrideMistake, RulebookOverrides } from '../agronomy/override-rulebook.ts';
import { ownRulebook } from '../agronomy/own-rulebook.ts';
import type { Rulebook } from '../agronomy/rulebook.ts';
import { ACTIVITIES, WAY_VALUES } from '../agronomy/season.ts';

/** What stands before a colon is texted to growers with WHY; the longest of the rulebook's own has 49 characters. */
const MOST_TEXTED = 50;

const source = z
  .string('no number without a source')
  .trim()
  .min(1, 'no number without a source')
  .max(200)
  .refine((text) => (text.split(':')[0] ?? '').length <= MOST_TEXTED, {
    error: `at most ${MOST_TEXTED} characters, or as many before a colon, like "Valley office: trials 2019-2024"`,
  });
const days = z.number().int('a whole number of days, or null').min(-400).max(400).nullable().exactOptional();
const activity = z.enum(ACTIVITIES).exactOptional();

const way = z.strictObject({
  tillage: z.enum(WAY_VALUES.tillage).exactOptional(),
  establishment: z.enum(WAY_VALUES.establishment).exactOptional(),
  nursery: z.enum(WAY_VALUES.nursery).exactOptional(),
  ripens: z.enum(WAY_VALUES.ripens).exactOptional(),
  water: z.enum(WAY_VALUES.water).exactOptional(),
});

const figureOverride = z.strictObject({
  figure: z.string(),
  value: z.number().min(0).max(10_000),
  source,
});

const ruleOverride = z.strictObject({
  rule: z.string(),
  from: activity,
  to: activity,
  round: z.number().int().min(1).max(9).exactOptional(),
  way: way.exactOptional(),
  lo: days,
  aim: days,
  hi: days,
  source,
});

export const rulebookSchema = z.strictObject({
  figures: z.array(figureOverride).default([]),
  rules: z.array(ruleOverride).default([]),
});

/** What keeps the rulebook from being used with these overrides, by its path in the file; none when the scheme has none. */
export function rulebookMistakes(
  overrides: RulebookOverrides | undefined,
  book: Rulebook,
): readonly OverrideMistake[] {
  if (!overrides) return [];
  const own = ownRulebook(book, overrides);
  return own.ok ? [] : own.mistakes.map(({ path, what }) => ({ path: ['rulebook', ...path], what }));
}
