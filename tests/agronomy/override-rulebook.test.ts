/** A scheme's own figures: what they change, what they leave, and what is refused with its place. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type FigureOverride,
  matches,
  overrideRulebook,
  type RuleOverride,
} from '../../src/agronomy/override-rulebook.ts';
import { ownRulebook } from '../../src/agronomy/own-rulebook.ts';
import type { Rule, Rulebook } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Way } from '../../src/agronomy/season.ts';

const book = DEFAULT_RULEBOOK;
const COST = { rank: 1, name: 'out-of-order', text: 'the work is out of order' };
const OWN = [{ text: 'Valley office', mark: 'scheme' }];
const rule = (name: string, more: Omit<RuleOverride, 'rule' | 'source'> = {}, source = 'Valley office') => ({
  rule: name,
  ...more,
  source,
});
const figure = (key: string, value: number): FigureOverride => ({
  figure: key,
  value,
  source: 'Valley office',
});

function overridden(rules: readonly RuleOverride[], figures: readonly FigureOverride[] = []): Rulebook {
  const result = overrideRulebook(book, { figures, rules });
  if (!result.ok) throw new Error(JSON.stringify(result.mistakes));
  return result.book;
}

function mistakes(
  rules: readonly RuleOverride[],
  figures: readonly FigureOverride[] = [],
  of = book,
): string[] {
  const result = ownRulebook(of, { figures, rules });
  return result.ok ? [] : result.mistakes.map(({ path, what }) => `${path.join(' ')}: ${what}`);
}

/** The rules that differ from the default ones. */
const changed = (own: Rulebook) => own.rules.filter((one, index) => one !== book.rules[index]);
const ends = ({ from, to }: Rule) => `${from.activity} ${to.activity} ${to.round ?? '-'}`;

describe('what is overridden', () => {
  it('bounds that are named; the others, the strength and the costs stay', () => {
    const before = book.rules.filter(({ name }) => name === 'rot');
    const own = overridden([rule('rot', { lo: 16, aim: 18 })]);
    expect(changed(own)).toEqual(before.map((one) => ({ ...one, lo: 16, aim: 18, sources: OWN })));
  });

  it('null takes a bound away', () => {
    expect(changed(overridden([rule('rot', { hi: null })]))).toMatchObject([
      { name: 'rot', lo: 14, hi: null },
    ]);
  });

  it('a figure, in its own unit', () => {
    const own = overridden([], [figure('plough-depth.max', 20)]);
    expect(own.figures).toEqual({
      ...book.figures,
      'plough-depth.max': { value: 20, unit: 'cm', sources: OWN },
    });
    expect(Object.keys(own.figures)).toEqual(Object.keys(book.figures));
    expect(changed(own)).toEqual([]);
  });

  it.each<[string, Omit<RuleOverride, 'rule' | 'source'>, string[]]>([
    [
      'a name alone',
      {},
      ['transplant weed 1', 'transplant weed 2', 'sow-direct weed 1', 'sow-direct weed 2'],
    ],
    ['the round of the second end', { round: 2 }, ['transplant weed 2', 'sow-direct weed 2']],
    ['the first end', { from: 'sow-direct' }, ['sow-direct weed 1', 'sow-direct weed 2']],
    ['all of them', { from: 'transplant', to: 'weed', round: 1 }, ['transplant weed 1']],
  ])('rules that share a name, narrowed down by %s', (_, narrow, met) => {
    const own = overridden([rule('weed', { ...narrow, aim: 20 })]);
    expect(changed(own).map(ends)).toEqual(met);
  });
});

describe('rules that share a name and both ends', () => {
  const twin = (water: Way['water'], hi: number | null): Rule => ({
    ...{ name: 'twin', from: { activity: 'flood', at: 'start' }, to: { activity: 'puddle', at: 'end' } },
    ...{ lo: 14, aim: null, hi, strength: 'should', when: { water: [water] } },
    ...{ costLo: COST, ...(hi === null ? {} : { costHi: COST }), sources: [] },
  });
  const twins: Rulebook = { ...book, rules: [twin('irrigated', 21), twin('rain-fed', null)] };
  const bounds = (own: RuleOverride) => {
    const result = overrideRulebook(twins, { figures: [], rules: [own] });
    return result.ok
      ? result.book.rules.map(({ lo, hi, sources }) => [lo, hi, sources.length])
      : result.mistakes;
  };

  it('are both given a bound that both have; of one that only one has, the other stays as it is', () => {
    expect(bounds(rule('twin', { lo: 16 }))).toEqual([
      [16, 21, 1],
      [16, null, 1],
    ]);
    expect(bounds(rule('twin', { hi: 25 }))).toEqual([
      [14, 25, 1],
      [14, null, 0],
    ]);
  });

  it('are told apart by the way that they are made for', () => {
    expect(bounds(rule('twin', { way: { water: 'rain-fed' }, lo: 10 }))).toEqual([
      [14, 21, 0],
      [10, null, 1],
    ]);
  });

  it('are not met by a way that they are not made for', () => {
    expect(bounds(rule('twin', { way: { nursery: 'mat' }, lo: 10 }))).toEqual([
      {
        path: ['rules', 0],
        what: '"twin" goes from flood to puddle (irrigated), from flood to puddle (rain-fed)',
      },
    ]);
  });
});

describe('precedence', () => {
  it('of two overrides of one bound the later stands, whichever is the narrower', () => {
    const general = rule('weed', { lo: 15, aim: 19 }, 'a survey');
    const narrow = rule('weed', { round: 1, aim: 17 }, 'a trial');
    const weeding = (rules: RuleOverride[]) =>
      overridden(rules).rules.find((one) => ends(one) === 'transplant weed 1');
    expect(weeding([general, narrow])).toMatchObject({
      ...{ lo: 15, aim: 17, hi: 21 },
      sources: [{ text: 'a survey' }, { text: 'a trial' }],
    });
    expect(weeding([narrow, general])).toMatchObject({
      ...{ lo: 15, aim: 19, hi: 21 },
      sources: [{ text: 'a survey' }],
    });
  });

  it('bounds that fit only together are checked together', () => {
    expect(mistakes([rule('rot', { lo: 25 }), rule('rot', { aim: 26, hi: 30 })])).toEqual([]);
  });
});

describe('what is refused, with its place', () => {
  it.each<[string, RuleOverride[], FigureOverride[], string | RegExp]>([
    [
      'an unknown figure',
      [],
      [figure('flood-depth', 9), figure('moon', 1)],
      'figures 1 figure: the rulebook has no figure "moon"',
    ],
    [
      'a name that only every object has',
      [],
      [figure('constructor', 1)],
      'figures 0 figure: the rulebook has no figure "constructor"',
    ],
    [
      'a figure twice',
      [],
      [figure('flood-depth', 9), figure('flood-depth', 8)],
      'figures 1 figure: "flood-depth" is there twice',
    ],
    [
      'an unknown rule',
      [rule('rotting', { lo: 16 })],
      [],
      'rules 0 rule: the rulebook has no rule "rotting"',
    ],
    [
      'ends that no such rule has',
      [rule('rot', { from: 'plough', lo: 16 })],
      [],
      /^rules 0: "rot" goes from flood to puddle \(/,
    ],
    [
      'a round where there is none',
      [rule('rot', { round: 1, lo: 16 })],
      [],
      /^rules 0: "rot" goes from flood to puddle \(/,
    ],
    ['no bound', [rule('rot')], [], 'rules 0: names neither lo nor aim nor hi'],
    [
      'lo above hi',
      [rule('soak', { aim: 2 }), rule('rot', { lo: 30, aim: null })],
      [],
      'rules 1: rot: at least 30 days is more than at most 21',
    ],
    [
      'an aim outside',
      [rule('rot', { aim: 30 })],
      [],
      'rules 0: rot: the aim, 30 days, is more than at most 21',
    ],
    ['half a day', [rule('rot', { lo: 14.5 })], [], 'rules 0: rot: 14.5 is not a whole number of days'],
    ['no source', [rule('rot', { lo: 14 }, ' ')], [], 'rules 0: rot: has no source'],
    [
      'a bound that has no cost',
      [rule('flood-after-plough', { lo: 1 }), rule('rough-level', { to: 'flood', hi: 9 })],
      [],
      'rules 1: rough-level: may give way, but its cost is not given',
    ],
    [
      'a figure below its partner',
      [],
      [figure('flood-depth', 9), figure('plough-depth.max', 5)],
      'figures 1: plough-depth.min: 10 is more than the 5 of plough-depth.max',
    ],
    [
      'a figure in half days',
      [],
      [figure('transplant-shock', 6.5)],
      'figures 0: transplant-shock: 6.5 is not a whole number of days',
    ],
    [
      'a figure that turns a rule round which follows it',
      [],
      [figure('flood-depth', 9), figure('seedling-age.long', 8)],
      'figures 1: seedling-age: the aim, 8 days, is less than at least 12',
    ],
  ])('%s', (_, rules, figures, expected) => {
    const wanted = typeof expected === 'string' ? expected : expect.stringMatching(expected);
    expect(mistakes(rules, figures)).toEqual([wanted]);
  });

  it('a circle of musts, at the override that closes it', () => {
    const back: Rule = {
      ...{ name: 'back', from: { activity: 'soak', at: 'end' }, to: { activity: 'clear', at: 'start' } },
      ...{
        lo: null,
        aim: null,
        hi: null,
        strength: 'must',
        sources: [{ text: 'a trial', mark: 'judgement' }],
      },
    };
    const open = { ...book, rules: [...book.rules, back] };
    const overrides = [rule('clear-first', { to: 'soak', lo: 0 }), rule('back', { lo: 1 })];
    expect(mistakes(overrides.slice(0, 1), [], open)).toEqual([]);
    const [circle, ...others] = mistakes(overrides, [], open);
    expect(others).toEqual([]);
    expect(circle).toMatch(/^rules 1: (back, clear-first|clear-first, back): can never all hold/);
  });

  it('the last concerned where either of two alone would be wrong', () => {
    expect(mistakes([rule('rot', { lo: 30, aim: null }), rule('rot', { lo: 31, aim: null })])).toEqual([
      'rules 1: rot: at least 31 days is more than at most 21',
    ]);
  });

  it('every mistake of names, in the order of the lists', () => {
    const all = mistakes([rule('x', { lo: 1 }), rule('soak', { lo: 1 }), rule('y')], [figure('z', 1)]);
    expect(all.map((mistake) => mistake.split(':')[0])).toEqual([
      'figures 0 figure',
      'rules 0 rule',
      'rules 2 rule',
    ]);
  });
});

describe('properties', () => {
  const bound = (value: Rule['lo']) => (typeof value === 'object' && value !== null ? {} : value);
  /** The rule's own numbers, as far as they can be written in a scheme's file. */
  function asItIs({ name, from, to, lo, aim, hi, when = {} }: Rule): RuleOverride {
    const bounds = Object.entries({ lo, aim, hi }).filter(([, value]) => bound(value) === value);
    return {
      ...{ rule: name, from: from.activity, to: to.activity, source: 'Valley office' },
      ...(to.round === undefined ? {} : { round: to.round }),
      way: Object.fromEntries(Object.entries(when).map(([part, [first]]) => [part, first])),
      ...Object.fromEntries(bounds),
    };
  }
  const bare = ({ sources: _, ...rest }: Rule | Rulebook['figures'][string]) => rest;
  const same = (own: RuleOverride) =>
    new Set(
      book.rules.filter((one) => matches(own, one)).map(({ lo, aim, hi }) => JSON.stringify([lo, aim, hi])),
    );
  const written = book.rules
    .map(asItIs)
    .filter((own) => [own.lo, own.aim, own.hi].some((one) => one !== undefined) && same(own).size === 1);

  it('nearly every rule can be meant alone, so that the next property says something', () => {
    expect(written.length).toBeGreaterThan(book.rules.length * 0.7);
  });

  it('the book’s own values change nothing but sources', () => {
    const keys = Object.keys(book.figures);
    fc.assert(
      fc.property(fc.subarray(written), fc.subarray(keys), (rules, some) => {
        const figures = some.map((key) => figure(key, book.figures[key]?.value ?? Number.NaN));
        const result = ownRulebook(book, { figures, rules });
        expect(result.ok).toBe(true);
        if (!result.ok) return;
        expect(result.book.rules.map(bare)).toEqual(book.rules.map(bare));
        for (const [index, one] of result.book.rules.entries()) {
          const meant = rules.some((own) => matches(own, one));
          expect(one.sources).toEqual(meant ? OWN : book.rules[index]?.sources);
        }
        for (const [key, one] of Object.entries(result.book.figures)) {
          expect(one).toEqual(
            some.includes(key) ? { ...book.figures[key], sources: OWN } : book.figures[key],
          );
        }
      }),
      { numRuns: 40 },
    );
  });
});
