/** Checks the single figures of a rulebook: none is missing, senseless or without a source. */
import type { Figure, Rulebook, Source } from './rulebook.ts';
import { NUTRIENT_FIGURES } from './rules/nutrient-figures.ts';
import { SEED_FIGURES } from './rules/seed-figures.ts';
import { SUM_FIGURES } from './rules/sum-figures.ts';
import { WATER_FIGURES } from './rules/water-figures.ts';

/** What keeps a rulebook from being used. */
export interface RulebookMistake {
  /** Where: "rules 3 (soak)", "figures plough-depth.min". */
  readonly place: string;
  readonly what: string;
  /** Indexes of the rules, and keys of the figures, that it is about. */
  readonly rules: readonly number[];
  readonly figures: readonly string[];
}

const REQUIRED_FIGURES = [
  'seedling-age.short',
  'seedling-age.medium',
  'seedling-age.long',
  'variety.short-to',
  'variety.medium-to',
  'transplant-shock',
  'panicle-before-maturity',
  'old-seedlings.extra-per-week',
  'plough-depth.min',
  'plough-depth.max',
  'soak-depth.max',
  'flood-depth',
  'level-range.max',
  'remind-overdue-every',
  'remind-overdue-later',
  'variety.usual',
  'round-apart',
  'seedling-age.mat-to',
  'seedling-age.warmth',
  'seedling-limit',
  'seed.soak-hours',
  'seedling-growth',
  'rainfall.soft',
  'rainfall.puddle',
  'rainfall.start',
  'rainfall.wet-day',
  'rainfall.dry-spell',
  'rainfall.watch',
  'rainfall.ask-after',
  'rainfall.most',
  'bund-height',
  'percolation',
  'evaporation.usual',
  'evaporation.open-water',
  'harvest.early',
  'harvest.late',
  'fallow',
  ...Object.keys(NUTRIENT_FIGURES),
  ...Object.keys(SEED_FIGURES),
  ...Object.keys(SUM_FIGURES),
  ...Object.keys(WATER_FIGURES),
];
/** What divides, or lasts: gangs, the time between reminders, seedlings, varieties; and what no sum can be made of. */
const ABOVE_ZERO = [
  'gang.',
  'remind-overdue-',
  'seedling-',
  'variety.',
  'rainfall.dry-spell',
  'rainfall.ask-after',
  'seed.',
  'germination.',
  'nursery.',
  'spacing.',
  'sum.',
  'level.barrow',
  'work.hours.',
  'soaking.',
  'canal.',
  'evaporation.open-water',
];

/** Every mistake in the figures, with its place. */
export function figureMistakes(book: Rulebook): readonly RulebookMistake[] {
  const own = Object.entries(book.figures).flatMap(([key, figure]) =>
    wrongWith(key, figure).map((what) => mistake(what, key)),
  );
  const missing = REQUIRED_FIGURES.filter((key) => !book.figures[key]);
  return [...missing.map((key) => mistake('is missing', key)), ...own, ...turnedRound(book)];
}

/** Whether a figure or rule stands without a source, or with one that says nothing. */
export const isSourceless = (sources: readonly Source[]) =>
  sources.length === 0 || sources.some(({ text }) => text.trim() === '');

function wrongWith(key: string, { value, unit, sources }: Figure): string[] {
  const wrong: string[] = [];
  if (!Number.isFinite(value) || value < 0) wrong.push(`${value} is not a number of 0 or more`);
  else if (unit === 'days' && !Number.isInteger(value)) wrong.push(`${value} is not a whole number of days`);
  else if (unit === 'share' && value > 1) wrong.push('must be at most 1');
  else if (value === 0 && ABOVE_ZERO.some((start) => key.startsWith(start)))
    wrong.push('must be more than 0');
  if (unit === '') wrong.push('has no unit');
  if (isSourceless(sources)) wrong.push('has no source');
  return wrong;
}

/** A least that is more than its most: `x.min` above `x.max`, short varieties longer than medium ones. */
function turnedRound({ figures }: Rulebook): RulebookMistake[] {
  const ranges = Object.keys(figures)
    .filter((key) => key.endsWith('.min'))
    .map((key) => [key, key.replace(/min$/, 'max')] as const);
  return [...ranges, ['variety.short-to', 'variety.medium-to'] as const].flatMap(([low, high]) => {
    const [least, most] = [figures[low]?.value, figures[high]?.value];
    if (least === undefined || most === undefined || least <= most) return [];
    return [mistake(`${least} is more than the ${most} of ${high}`, low, high)];
  });
}

function mistake(what: string, key: string, ...others: readonly string[]): RulebookMistake {
  return { place: `figures ${key}`, what, rules: [], figures: [key, ...others] };
}
