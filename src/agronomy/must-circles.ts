/** Finds `must`s that no crop could ever keep, whatever its way of growing. */
import { solve } from '../plan/solve.ts';
import type { RulebookMistake } from './check-figures.ts';
import { everyWay } from './every-way.ts';
import { type Frame, frameOf, startOf } from './frame.ts';
import { figure, type Rulebook } from './rulebook.ts';
import type { Season, Way } from './season.ts';

/** Rules that can never all hold; each circle once, with the first way of growing that has it. */
export function mustCircles(book: Rulebook): readonly RulebookMistake[] {
  const found = new Map<string, RulebookMistake>();
  for (const { way, frame } of distinctFrames(book)) {
    for (const rules of blockedRules(book, frame)) {
      const names = [...new Set(rules.map((index) => book.rules[index]?.name ?? ''))];
      const place = `rules ${names.join(', ')}`;
      const what = `can never all hold (as in ${Object.values(way).join(', ')})`;
      if (!found.has(place)) found.set(place, { place, what, rules, figures: [] });
    }
  }
  return [...found.values()];
}

/** One way of growing for every set of steps and rules that the book has. */
function distinctFrames(book: Rulebook): readonly { readonly way: Way; readonly frame: Frame }[] {
  const frames = new Map<string, { way: Way; frame: Frame }>();
  for (const way of everyWay()) {
    const frame = frameOf(book, blankSeason(book, way));
    const steps = frame.steps.map((step) => book.steps.indexOf(step));
    const key = `${steps}; ${frame.rules.map(({ rule }) => book.rules.indexOf(rule))}`;
    if (!frames.has(key)) frames.set(key, { way, frame });
  }
  return [...frames.values()];
}

/** A season of which nothing is known; with fertiliser at the last puddling, so that no step is left out. */
function blankSeason(book: Rulebook, way: Way): Season {
  const open = { from: null, to: null };
  const varietyDays = figure(book, 'variety.usual');
  return { way, areaHa: 1, varietyDays, blockWater: open, target: open, basalAdvised: true, reports: [] };
}

/** The rules of every conflict among `must`s, as indexes into the book. Work takes a day or more. */
function blockedRules(book: Rulebook, frame: Frame): readonly (readonly number[])[] {
  const must = { strength: 'must' } as const;
  const gaps = frame.rules.flatMap(({ rule, from, to, lo, hi }) =>
    rule.strength === 'must' ? [{ ...must, from, to, lo, hi, rule: String(book.rules.indexOf(rule)) }] : [],
  );
  const work = frame.steps.map((_, step) => ({
    ...must,
    from: startOf(step),
    to: startOf(step) + 1,
    lo: 0,
    hi: null,
    rule: 'work',
  }));
  return solve({ points: frame.points, gaps: [...gaps, ...work] }).blocked.map(({ rules }) =>
    rules.filter((rule) => rule !== 'work').map(Number),
  );
}
