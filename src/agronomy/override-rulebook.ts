/** A scheme's own figures in place of the rulebook's. It looks for what they name; whether they make sense is checked after. */
import type { PointName, Rule, Rulebook, When } from './rulebook.ts';
import type { Activity, Way } from './season.ts';

/** Another value for a single figure, in the figure's own unit. */
export interface FigureOverride {
  readonly figure: string;
  readonly value: number;
  readonly source: string;
}

/**
 * Other bounds, in whole days, for every rule that matches; a bound that is not named stays, null takes it away. Where
 * some of these rules have a bound and others do not, only those that have it are given the scheme's.
 */
export interface RuleOverride {
  readonly rule: string;
  /** Activities at the two ends, and the round of the second, where several rules share the name. */
  readonly from?: Activity;
  readonly to?: Activity;
  readonly round?: number;
  /** Ways of growing that the rule is made for, where rules differ by them. */
  readonly way?: Partial<Way>;
  readonly lo?: number | null;
  readonly aim?: number | null;
  readonly hi?: number | null;
  readonly source: string;
}

export interface RulebookOverrides {
  readonly figures: readonly FigureOverride[];
  readonly rules: readonly RuleOverride[];
}

/** What is wrong with an override: `path` leads to it, such as `['rules', 0, 'rule']`. */
export interface OverrideMistake {
  readonly path: readonly (string | number)[];
  readonly what: string;
}

export type Overridden =
  | { readonly ok: true; readonly book: Rulebook }
  | { readonly ok: false; readonly mistakes: readonly OverrideMistake[] };

const BOUNDS = ['lo', 'aim', 'hi'] as const;

/**
 * The book with the scheme's figures and bounds, each with the scheme's source; of two overrides of one bound the later
 * stands. Mistakes when an override names nothing that the book has, changes nothing, or is there twice.
 */
export function overrideRulebook(book: Rulebook, overrides: RulebookOverrides): Overridden {
  const mistakes = [
    ...overrides.figures.flatMap((_, index) => figureMistakes(book, overrides.figures, index)),
    ...overrides.rules.flatMap((own, index) => ruleMistakes(book, own, index)),
  ];
  if (mistakes.length > 0) return { ok: false, mistakes };
  const rules = book.rules.map((rule) => withOwn(book, rule, overrides.rules));
  return { ok: true, book: { ...book, rules, figures: ownFigures(book, overrides.figures) } };
}

/** Whether an override is meant for a rule: its name, and as much of its ends and ways as is named. */
export function matches(own: RuleOverride, { name, from, to, when }: Rule): boolean {
  return (
    own.rule === name &&
    (own.from === undefined || own.from === from.activity) &&
    (own.to === undefined || own.to === to.activity) &&
    (own.round === undefined || own.round === to.round) &&
    Object.entries(own.way ?? {}).every(([part, value]) => madeFor(when, part, value))
  );
}

function madeFor(when: When | undefined, part: string, value: string): boolean {
  const values: Readonly<Record<string, readonly string[]>> = when ?? {};
  return values[part]?.includes(value) ?? false;
}

function withOwn(book: Rulebook, rule: Rule, own: readonly RuleOverride[]): Rule {
  const standing = BOUNDS.flatMap((bound) => {
    const last = own.findLast((one) => one[bound] !== undefined && takes(book, one, rule, bound));
    return last ? [{ bound, last }] : [];
  });
  if (standing.length === 0) return rule;
  const bounds = Object.fromEntries(standing.map(({ bound, last }) => [bound, last[bound]]));
  const used = own.filter((one) => standing.some(({ last }) => last === one));
  return { ...rule, ...bounds, sources: sourcesOf(used) };
}

function takes(book: Rulebook, own: RuleOverride, rule: Rule, bound: (typeof BOUNDS)[number]): boolean {
  if (!matches(own, rule)) return false;
  return rule[bound] !== null || !book.rules.some((other) => matches(own, other) && other[bound] !== null);
}

function ownFigures(book: Rulebook, own: readonly FigureOverride[]): Rulebook['figures'] {
  const figures = new Map(own.map((one) => [one.figure, one]));
  return Object.fromEntries(
    Object.entries(book.figures).map(([key, given]) => {
      const found = figures.get(key);
      return [key, found ? { ...given, value: found.value, sources: sourcesOf([found]) } : given];
    }),
  );
}

const sourcesOf = (own: readonly { readonly source: string }[]) =>
  [...new Set(own.map(({ source }) => source))].map((text) => ({ text, mark: 'scheme' as const }));

function figureMistakes(book: Rulebook, own: readonly FigureOverride[], index: number): OverrideMistake[] {
  const key = own[index]?.figure ?? '';
  const path = ['figures', index, 'figure'];
  if (!Object.hasOwn(book.figures, key)) return [{ path, what: `the rulebook has no figure "${key}"` }];
  const first = own.findIndex((one) => one.figure === key);
  return first < index ? [{ path, what: `"${key}" is there twice` }] : [];
}

function ruleMistakes(book: Rulebook, own: RuleOverride, index: number): OverrideMistake[] {
  const named = book.rules.filter(({ name }) => name === own.rule);
  if (named.length === 0)
    return [{ path: ['rules', index, 'rule'], what: `the rulebook has no rule "${own.rule}"` }];
  if (!named.some((rule) => matches(own, rule))) {
    const ends = [...new Set(named.map(endsText))];
    return [{ path: ['rules', index], what: `"${own.rule}" goes from ${ends.join(', from ')}` }];
  }
  if (BOUNDS.some((bound) => own[bound] !== undefined)) return [];
  return [{ path: ['rules', index], what: 'names neither lo nor aim nor hi' }];
}

/** "flood to puddle (irrigated; hoe, animals)". */
function endsText({ from, to, when }: Rule): string {
  const ways = Object.values(when ?? {}).map((values) => values.join(', '));
  return `${pointText(from)} to ${pointText(to)}${ways.length > 0 ? ` (${ways.join('; ')})` : ''}`;
}

const pointText = ({ activity, round }: PointName) =>
  activity + (round === undefined ? '' : `, round ${round}`);
