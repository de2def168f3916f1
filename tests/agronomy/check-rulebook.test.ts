/** What the rulebook's check finds beyond single rules: senseless figures, and circles in any way of growing. */
import { describe, expect, it } from 'vitest';
import { checkRulebook } from '../../src/agronomy/check-rulebook.ts';
import { everyWay } from '../../src/agronomy/every-way.ts';
import type { PointName, Rule, Rulebook, When } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';

const book = DEFAULT_RULEBOOK;
const said = (one: Rulebook) => checkRulebook(one).map(({ place, what }) => `${place}: ${what}`);
const withFigure = (key: string, value: number): Rulebook => {
  const figure = book.figures[key];
  if (!figure) throw new Error(`no figure ${key}`);
  return { ...book, figures: { ...book.figures, [key]: { ...figure, value } } };
};

describe('figures', () => {
  it.each([
    ['seedling-age.short', 15.5, 'figures seedling-age.short: 15.5 is not a whole number of days'],
    ['flood-depth', -1, 'figures flood-depth: -1 is not a number of 0 or more'],
    ['gang.transplant', 0, 'figures gang.transplant: must be more than 0'],
    ['remind-overdue-every', 0, 'figures remind-overdue-every: must be more than 0'],
    ['seedling-age.short', 0, 'figures seedling-age.short: must be more than 0'],
    ['plough-depth.max', 8, 'figures plough-depth.min: 10 is more than the 8 of plough-depth.max'],
    ['variety.medium-to', 100, 'figures variety.short-to: 115 is more than the 100 of variety.medium-to'],
  ])('%s of %f', (key, value, mistake) => {
    expect(said(withFigure(key, value))).toEqual([mistake]);
  });

  it('half a centimetre is a length like any other', () => {
    expect(said(withFigure('flood-depth', 7.5))).toEqual([]);
  });

  it('classes of variety are tried where the book puts them', () => {
    const early = withFigure('seedling-age.short', 9);
    expect(said(early)).toEqual([expect.stringContaining('the aim, 9 days, is less than at least 12')]);
  });
});

it('a rule that only prefers has no least and no most: they would never be looked at', () => {
  const rules = book.rules.map((rule) =>
    rule.name === 'rot' ? { ...rule, strength: 'aim' as const } : rule,
  );
  expect(said({ ...book, rules })[0]).toMatch(/^rules \d+ \(rot\): only prefers/);
});

describe('circles of musts', () => {
  const flood: PointName = { activity: 'flood', at: 'start' };
  const harvest: PointName = { activity: 'harvest', at: 'start' };
  const must = (name: string, from: PointName, to: PointName, when: When): Rule => ({
    ...{ name, from, to, lo: 1, aim: null, hi: null, strength: 'must', when },
    sources: [{ text: 'a trial', mark: 'judgement' }],
  });
  const circle = (when: When): Rulebook => ({
    ...book,
    rules: [...book.rules, must('there', flood, harvest, when), must('back', harvest, flood, when)],
  });

  it.each<[When, RegExp]>([
    [{ tillage: ['animals'] }, /as in animals, /],
    [{ tillage: ['none'], establishment: ['wet-seed'] }, /as in none, wet-seed, /],
    [{ nursery: ['mat'] }, /, mat, /],
    [{ ripens: ['by-local-date'] }, /, by-local-date, /],
    [{ water: ['rain-fed'] }, /, rain-fed\)$/],
  ])('are found where they hold for %j only, each once', (when, way) => {
    const mistakes = checkRulebook(circle(when));
    expect(mistakes).toHaveLength(1);
    expect(mistakes[0]?.what).toMatch(way);
    const names = mistakes[0]?.rules.map((index) => circle(when).rules[index]?.name);
    expect(names?.toSorted()).toEqual(['back', 'there']);
  });

  it('of which no way has every rule are none', () => {
    const rules = [
      must('there', flood, harvest, { nursery: ['mat'] }),
      must('back', harvest, flood, { nursery: ['wet-bed'] }),
    ];
    expect(said({ ...book, rules: [...book.rules, ...rules] })).toEqual([]);
  });

  it('every combination of way is gone through, each once', () => {
    expect(everyWay()).toHaveLength(4 * 2 * 3 * 2 * 2);
    expect(new Set(everyWay().map((way) => JSON.stringify(way))).size).toBe(everyWay().length);
  });
});
