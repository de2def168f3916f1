/** The rulebook that holds where the scheme's own file says nothing else. */
import type { Choice, Rulebook } from '../rulebook.ts';
import { AFTER_PLANTING, NURSERY } from './crop.ts';
import { DIRECT } from './direct.ts';
import { FIGURES } from './figures.ts';
import { PREPARATION } from './preparation.ts';
import { RAIN_FED, RAIN_GATES, SEED_WAITS } from './rain-fed.ts';
import { BY_LOCAL_DATE } from './ripening.ts';
import { STEPS } from './steps.ts';

/**
 * Planting day first, then backward to the last puddling; the nursery from planting, before the field: seedlings have one
 * best age, and where they take longer than the field, soaking comes as early as the seed needs it. Then ploughing from
 * planting, flooding from ploughing; so only the length of rotting stretches, within its two to three weeks. The crop
 * hangs on planting and nursery.
 */
const CHOICES: readonly Choice[] = [
  { rule: 'puddle-level', fix: 'to', oncePast: true },
  { rule: 'settle', fix: 'from' },
  { rule: 'direct-settle', fix: 'from' },
  { rule: 'puddle-level', fix: 'from' },
  { rule: 'seedling-age', fix: 'from' },
  { rule: 'pregerminate', fix: 'from' },
  { rule: 'plough-lead', fix: 'from' },
  { rule: 'flood-after-plough', fix: 'to' },
  { rule: 'rough-level', fix: 'to' },
  { rule: 'hold', fix: 'from' },
  { rule: 'soak', fix: 'from' },
  { rule: 'hold-rain', fix: 'from' },
  { rule: 'clear-first', fix: 'from' },
  { rule: 'manure', fix: 'from' },
  { rule: 'basal', fix: 'to' },
  { rule: 'gap-fill', fix: 'to' },
  { rule: 'weed', fix: 'to' },
  { rule: 'topdress', fix: 'to' },
  { rule: 'maturity', fix: 'to' },
  { rule: 'direct-maturity', fix: 'to' },
  { rule: 'topdress-by-date', fix: 'from' },
  { rule: 'drain', fix: 'from' },
];

export const DEFAULT_RULEBOOK: Rulebook = {
  steps: STEPS,
  rules: [
    ...PREPARATION,
    ...NURSERY,
    ...SEED_WAITS,
    ...AFTER_PLANTING,
    ...DIRECT,
    ...BY_LOCAL_DATE,
    ...RAIN_FED,
  ],
  choices: CHOICES,
  rainGates: RAIN_GATES,
  figures: FIGURES,
};
