/** Numbers that texts name, each from its row of the rulebook: no text has a figure of its own. */
import type { CropDays } from '../agronomy/crop-days.ts';
import { holds } from '../agronomy/frame.ts';
import { figure, type Rulebook } from '../agronomy/rulebook.ts';
import type { Way } from '../agronomy/season.ts';
import { boundDays } from '../agronomy/variety.ts';

/** A figure, or one bound of a rule (of the round of work that it leads to). */
export type Row =
  | { readonly figure: string }
  | { readonly rule: string; readonly bound: 'lo' | 'aim' | 'hi'; readonly round?: number };

/** Message key, placeholder, row. */
export const NUMBERS: Readonly<Record<string, Readonly<Record<string, Row>>>> = {
  'do.plough': { min: { figure: 'plough-depth.min' }, max: { figure: 'plough-depth.max' } },
  'do.soak': { min: { figure: 'soak-depth.min' }, max: { figure: 'soak-depth.max' } },
  'do.flood': { depth: { figure: 'flood-depth' } },
  'tip.level': { range: { figure: 'level-range.max' } },
  'tip.pregerminate': { hours: { figure: 'seed.soak-hours' } },
  'check.plough-depth-lo': { min: { figure: 'plough-depth.min' }, max: { figure: 'plough-depth.max' } },
  'check.plough-depth-hi': { min: { figure: 'plough-depth.min' }, max: { figure: 'plough-depth.max' } },
  'check.level-range-hi': { max: { figure: 'level-range.max' } },
  'steps.good': { days: { figure: 'in-step.days' } },
  'steps.spread': { days: { figure: 'in-step.days' } },
  'next.over': { days: { figure: 'fallow' } },
  'rain.ask': { days: { figure: 'rainfall.ask-after' } },
  'why.rot': { days: { rule: 'rot', bound: 'lo' } },
  'why.plough-lead': { days: { rule: 'plough-lead', bound: 'aim' } },
  'why.pregerminate': { days: { rule: 'pregerminate', bound: 'lo' } },
  'why.seedling-old': { days: { rule: 'seedling-old', bound: 'hi' } },
  'why.gap-fill': { days: { rule: 'gap-fill', bound: 'hi' } },
  'why.hold': { least: { rule: 'hold', bound: 'lo' }, most: { rule: 'hold', bound: 'hi' } },
  'why.weed': { days: { rule: 'weed', bound: 'hi', round: 2 } },
  'why.maturity': { days: { figure: 'transplant-shock' } },
  'why.topdress-by-date': { days: { figure: 'panicle-before-maturity' } },
  'why.plough-depth': { min: { figure: 'plough-depth.min' }, max: { figure: 'plough-depth.max' } },
  'sum.level-uneven': { max: { figure: 'level-range.max' } },
  'why.sum-level': { max: { figure: 'level-range.max' } },
  'why.sum-germination': { usual: { figure: 'seed.rate-germination' } },
  'why.sum-phases': {
    panicle: { figure: 'panicle-before-maturity' },
    flowering: { figure: 'flowering-before-maturity' },
  },
  'why.level-range': { max: { figure: 'level-range.max' } },
};

/** The plot for which a rule's bound is read. */
export interface Grown {
  readonly way: Way;
  readonly crop: CropDays;
}

/** The numbers of a message as its values, empty when it names none. Throws a RangeError when a row is missing. */
export function numbersFor(book: Rulebook, key: string, grown?: Grown): Record<string, number> {
  const rows = Object.entries(NUMBERS[key] ?? {});
  return Object.fromEntries(rows.map(([name, row]) => [name, numberAt(book, row, grown)]));
}

function numberAt(book: Rulebook, row: Row, grown: Grown | undefined): number {
  if ('figure' in row) return figure(book, row.figure);
  const rule = book.rules.find(
    ({ name, to, when }) =>
      name === row.rule &&
      (!grown || holds(when, grown.way)) &&
      (row.round === undefined || to.round === row.round),
  );
  const days = rule && boundDays(book, rule[row.bound], grown?.crop.varietyDays ?? 0, grown?.crop);
  if (days == null) throw new RangeError(`The rulebook has no ${row.bound} for "${row.rule}".`);
  return days;
}
