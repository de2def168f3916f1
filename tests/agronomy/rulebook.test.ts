/** The default rulebook is sound, and its figures are those of the published sources named beside each check. */
import { describe, expect, it } from 'vitest';
import { checkRulebook } from '../../src/agronomy/check-rulebook.ts';
import { figure, type Rule, type Rulebook } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { extraSeedlings, seedlingAge } from '../../src/agronomy/variety.ts';

const book = DEFAULT_RULEBOOK;
const ruleNamed = (name: string): Rule => book.rules.find((rule) => rule.name === name) as Rule;
const withRule = (name: string, change: Partial<Rule>): Rulebook => ({
  ...book,
  rules: book.rules.map((rule) => (rule.name === name ? { ...rule, ...change } : rule)),
});

describe('the default rulebook', () => {
  it('has no mistakes', () => {
    expect(checkRulebook(book)).toEqual([]);
  });

  // Common practice: soak 2-3 days, rot two to three weeks under about 10 cm, plough 10-15 cm.
  it('keeps the common-practice figures', () => {
    expect([ruleNamed('soak').lo, ruleNamed('soak').aim]).toEqual([2, 3]);
    expect([ruleNamed('rot').lo, ruleNamed('rot').hi]).toEqual([14, 21]);
    expect(figure(book, 'flood-depth')).toBe(10);
    expect([figure(book, 'plough-depth.min'), figure(book, 'plough-depth.max')]).toEqual([10, 15]);
  });

  // IIRR, Low-external Input Rice Production, wet-bed nursery: 16, 20, 25 days.
  it.each([
    [100, 16],
    [115, 16],
    [116, 20],
    [125, 20],
    [126, 25],
    [150, 25],
  ])('plants a %i-day variety at %i days', (varietyDays, age) => {
    expect(seedlingAge(book, varietyDays)).toBe(age);
  });

  // PhilRice/PinoyRice, how to transplant: one more seedling a hill for each full week past the best age.
  it.each([
    [20, 0],
    [26, 0],
    [27, 1],
    [33, 1],
    [34, 2],
    [12, 0],
  ])('puts seedlings of %i days in with %i more a hill', (ageDays, extra) => {
    expect(extraSeedlings(book, ageDays, 20)).toBe(extra);
  });
});

describe('a wrong rulebook is refused with the place', () => {
  it.each<[string, Rulebook, string]>([
    ['a rule without a source', withRule('soak', { sources: [] }), 'rules 2 (soak): has no source'],
    [
      'lo above hi',
      withRule('rot', { lo: 30, aim: 30 }),
      'rules 6 (rot): at least 30 days is more than at most 21',
    ],
    [
      'an aim outside',
      withRule('settle', { aim: 9 }),
      'rules 13 (settle): the aim, 9 days, is more than at most 3',
    ],
    ['half a day', withRule('soak', { lo: 1.5 }), 'rules 2 (soak): 1.5 is not a whole number of days'],
    [
      'a figure without a source',
      { ...book, figures: { ...book.figures, 'flood-depth': { value: 10, unit: 'cm', sources: [] } } },
      'figures flood-depth: has no source',
    ],
    [
      'a figure that is missing',
      {
        ...book,
        figures: Object.fromEntries(Object.entries(book.figures).filter(([key]) => key !== 'flood-depth')),
      },
      'figures flood-depth: is missing',
    ],
    [
      'a should without a cost',
      { ...book, rules: book.rules.map(({ costHi: _, ...rule }) => rule) },
      'rules 2 (soak): may give way, but its cost is not given',
    ],
  ])('%s', (_, wrong, place) => {
    const said = checkRulebook(wrong).map(({ place: at, what }) => `${at}: ${what}`);
    expect(said[0]).toBe(place);
  });

  it('a circle of musts', () => {
    const back: Rule = {
      ...ruleNamed('clear-first'),
      name: 'soak-first',
      from: { activity: 'soak', at: 'end' },
      to: { activity: 'clear', at: 'start' },
      lo: 1,
      aim: null,
    };
    const [mistake] = checkRulebook({ ...book, rules: [...book.rules, back] });
    expect(mistake?.what).toContain('can never all hold');
    expect(mistake?.place).toContain('soak-first');
    expect(mistake?.place).toContain('clear-first');
  });
});
