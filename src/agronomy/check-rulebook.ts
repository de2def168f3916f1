/** Checks a rulebook before it is used: no number without a source, no impossible gap, no circle of `must`s. */
import { figureMistakes, isSourceless, type RulebookMistake } from './check-figures.ts';
import { mustCircles } from './must-circles.ts';
import { type Bound, figure, type Rule, type Rulebook } from './rulebook.ts';
import { VARIETY_DAYS } from './season.ts';
import { boundDays } from './variety.ts';

/** Every mistake in the book, with its place; empty when it can be used. */
export function checkRulebook(book: Rulebook): readonly RulebookMistake[] {
  const figures = figureMistakes(book);
  if (figures.length > 0) return figures;
  const rules = book.rules.flatMap((rule, index) =>
    ruleMistakes(book, rule).map((what) => ({
      place: `rules ${index + 1} (${rule.name})`,
      what,
      rules: [index],
      figures: [],
    })),
  );
  return rules.length > 0 ? rules : [...choiceMistakes(book), ...mustCircles(book)];
}

function ruleMistakes(book: Rulebook, rule: Rule): string[] {
  const bounds = [rule.lo, rule.aim, rule.hi];
  const wrong = [
    ...(isSourceless(rule.sources) ? ['has no source'] : []),
    ...bounds
      .filter((bound) => !isWhole(bound))
      .map((bound) => `${JSON.stringify(bound)} is not a whole number of days`),
  ];
  if (wrong.length > 0) return wrong;
  const order = varietiesToTry(book).map((days) => {
    const [lo, aim, hi] = bounds.map((bound) => boundDays(book, bound, days));
    return orderMistake(lo ?? null, aim ?? null, hi ?? null);
  });
  const first = order.find((mistake) => mistake !== null);
  if (first) return [first];
  if (lacksCost(rule)) return ['may give way, but its cost is not given'];
  return isIdle(rule) ? ['only prefers: at least and at most would never be looked at'] : [];
}

/** Lengths of variety on both sides of every class: bounds that follow the variety change there. */
function varietiesToTry(book: Rulebook): readonly number[] {
  const classes = ['variety.short-to', 'variety.medium-to'].map((key) => figure(book, key));
  return [
    VARIETY_DAYS.least,
    90,
    ...classes.flatMap((days) => [days, days + 1]),
    150,
    180,
    VARIETY_DAYS.most,
  ];
}

const lacksCost = ({ strength, lo, hi, costLo, costHi }: Rule) =>
  strength === 'should' && ((lo !== null && !costLo) || (hi !== null && !costHi));

const isIdle = ({ strength, lo, hi }: Rule) => strength === 'aim' && (lo !== null || hi !== null);

const isWhole = (bound: Bound) =>
  bound === null || Number.isInteger(typeof bound === 'number' ? bound : bound.plus);

function orderMistake(lo: number | null, aim: number | null, hi: number | null): string | null {
  if (lo !== null && hi !== null && lo > hi) return `at least ${lo} days is more than at most ${hi}`;
  if (aim !== null && lo !== null && aim < lo) return `the aim, ${aim} days, is less than at least ${lo}`;
  if (aim !== null && hi !== null && aim > hi) return `the aim, ${aim} days, is more than at most ${hi}`;
  return null;
}

function choiceMistakes(book: Rulebook): RulebookMistake[] {
  return book.choices
    .filter((choice) => !book.rules.some(({ name }) => name === choice.rule))
    .map((choice) => ({ place: `choices ${choice.rule}`, what: 'names no rule', rules: [], figures: [] }));
}
