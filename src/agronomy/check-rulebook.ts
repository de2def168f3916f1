/** Checks a rulebook before it is used: no number without a source, no impossible gap, no circle of `must`s. */
import { solve } from '../plan/solve.ts';
import { frameOf, startOf } from './frame.ts';
import type { Bound, Rule, Rulebook } from './rulebook.ts';
import type { Season, Way } from './season.ts';
import { boundDays } from './variety.ts';

export interface Mistake {
  /** Where: "rules 3 (soak)", "figures plough-depth.min". */
  readonly place: string;
  readonly what: string;
}

/** Variety lengths for which bounds that follow the variety are tried. */
const VARIETY_DAYS = [90, 115, 116, 125, 126, 150, 180];
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
];

/** Every mistake in the book, with its place; empty when it can be used. */
export function checkRulebook(book: Rulebook): readonly Mistake[] {
  const figures = [...missingFigures(book), ...figureMistakes(book)];
  if (figures.length > 0) return figures;
  const rules = book.rules.flatMap((rule, index) =>
    ruleMistakes(book, rule, `rules ${index + 1} (${rule.name})`),
  );
  return rules.length > 0 ? rules : [...choiceMistakes(book), ...circles(book)];
}

function missingFigures(book: Rulebook): Mistake[] {
  return REQUIRED_FIGURES.filter((key) => !book.figures[key]).map((key) => ({
    place: `figures ${key}`,
    what: 'is missing',
  }));
}

function figureMistakes(book: Rulebook): Mistake[] {
  return Object.entries(book.figures).flatMap(([key, { value, unit, sources }]) => {
    const place = `figures ${key}`;
    const mistakes: Mistake[] = [];
    if (!Number.isFinite(value) || value < 0)
      mistakes.push({ place, what: `${value} is not a number of 0 or more` });
    if (unit === '') mistakes.push({ place, what: 'has no unit' });
    return sourceless(sources) ? [...mistakes, { place, what: 'has no source' }] : mistakes;
  });
}

const sourceless = (sources: readonly { readonly text: string }[]) =>
  sources.length === 0 || sources.some(({ text }) => text.trim() === '');

function ruleMistakes(book: Rulebook, rule: Rule, place: string): Mistake[] {
  const mistakes: Mistake[] = [];
  if (sourceless(rule.sources)) mistakes.push({ place, what: 'has no source' });
  for (const bound of [rule.lo, rule.aim, rule.hi]) {
    if (!isWhole(bound))
      mistakes.push({ place, what: `${JSON.stringify(bound)} is not a whole number of days` });
  }
  if (mistakes.length > 0) return mistakes;
  for (const days of VARIETY_DAYS) {
    const [lo, aim, hi] = [rule.lo, rule.aim, rule.hi].map((bound) => boundDays(book, bound, days)) as (
      | number
      | null
    )[];
    const wrong = orderMistake(lo ?? null, aim ?? null, hi ?? null);
    if (wrong) return [{ place, what: wrong }];
  }
  if (
    rule.strength === 'should' &&
    ((rule.lo !== null && !rule.costLo) || (rule.hi !== null && !rule.costHi))
  ) {
    return [{ place, what: 'may give way, but its cost is not given' }];
  }
  return [];
}

const isWhole = (bound: Bound) =>
  bound === null || Number.isInteger(typeof bound === 'number' ? bound : bound.plus);

function orderMistake(lo: number | null, aim: number | null, hi: number | null): string | null {
  if (lo !== null && hi !== null && lo > hi) return `at least ${lo} days is more than at most ${hi}`;
  if (aim !== null && lo !== null && aim < lo) return `the aim, ${aim} days, is less than at least ${lo}`;
  if (aim !== null && hi !== null && aim > hi) return `the aim, ${aim} days, is more than at most ${hi}`;
  return null;
}

function choiceMistakes(book: Rulebook): Mistake[] {
  return book.choices
    .filter((choice) => !book.rules.some(({ name }) => name === choice.rule))
    .map((choice) => ({ place: `choices ${choice.rule}`, what: 'names no rule' }));
}

const WAYS: readonly Way[] = (['two-wheel', 'none'] as const).flatMap((tillage) =>
  (['transplant', 'wet-seed'] as const).map(
    (establishment): Way => ({
      water: 'irrigated',
      tillage,
      establishment,
      nursery: 'wet-bed',
      ripens: 'by-days',
    }),
  ),
);

/** `must`s that no crop could ever keep, per way. */
function circles(book: Rulebook): Mistake[] {
  return WAYS.flatMap((way) => {
    const blank = { from: null, to: null };
    const season: Season = {
      way,
      areaHa: 1,
      varietyDays: 120,
      blockWater: blank,
      target: blank,
      reports: [],
    };
    const frame = frameOf(book, season);
    const gaps = frame.rules.flatMap(({ rule, from, to, lo, hi }) =>
      rule.strength === 'must' ? [{ from, to, lo, hi, strength: 'must' as const, rule: rule.name }] : [],
    );
    const oneDay = frame.steps.map((_, step) => ({
      from: startOf(step),
      to: startOf(step) + 1,
      lo: 0,
      hi: null,
      strength: 'must' as const,
      rule: 'work',
    }));
    return solve({ points: frame.points, gaps: [...gaps, ...oneDay] }).blocked.map(({ rules }) => ({
      place: `rules ${rules.join(', ')}`,
      what: `can never all hold (${way.tillage}, ${way.establishment})`,
    }));
  });
}
