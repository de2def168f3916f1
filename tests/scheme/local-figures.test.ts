/** What a scheme file may say of its place: figures of its own, days of rest, usual weather, the start of the rains. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Rule, Rulebook } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { readSchemeFile } from '../../src/scheme/scheme-file.ts';
import { day } from '../support/seasons.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const LOADED = day('2027-03-01');
/** The line on which a section begins that is put behind the valley's file. */
const FIRST_LINE = VALLEY.split('\n').length;

function read(section: string, book?: Rulebook) {
  return readSchemeFile(`${VALLEY}${section}`, LOADED, book);
}

function mistakes(section: string, book?: Rulebook): string[] {
  const reading = read(section, book);
  return reading.ok ? [] : reading.mistakes.map(({ place, what }) => `${place}: ${what}`);
}

/** Mistakes with their lines counted within the section: "2, rulebook, rules, 1: …". */
const places = (section: string, book?: Rulebook) =>
  mistakes(section, book).map((mistake) =>
    mistake.replace(/^line (\d+)/, (_, line) => String(Number(line) - FIRST_LINE + 1)),
  );

const rules = (...written: readonly string[]) =>
  `rulebook:\n  rules:\n${written.map((one) => `    - ${one}\n`).join('')}`;
const figures = (...written: readonly string[]) =>
  `rulebook:\n  figures:\n${written.map((one) => `    - ${one}\n`).join('')}`;

describe('the rulebook section', () => {
  test('is read; bounds that are not named are not there', () => {
    const section = `${figures('{ figure: plough-depth.max, value: 20, source: "Soil survey: 2025" }')}  rules:
    - { rule: rot, lo: 16, aim: 18, hi: 25, source: "Valley office: trials 2019-2024" }
    - { rule: topdress, from: transplant, to: topdress, round: 1, hi: null, source: Valley office }
    - { rule: soak, way: { tillage: hoe }, aim: 2, source: Valley office }
`;
    const reading = read(section);
    expect(reading.ok && reading.scheme.rulebook).toEqual({
      figures: [{ figure: 'plough-depth.max', value: 20, source: 'Soil survey: 2025' }],
      rules: [
        { rule: 'rot', lo: 16, aim: 18, hi: 25, source: 'Valley office: trials 2019-2024' },
        { rule: 'topdress', from: 'transplant', to: 'topdress', round: 1, hi: null, source: 'Valley office' },
        { rule: 'soak', way: { tillage: 'hoe' }, aim: 2, source: 'Valley office' },
      ],
    });
  });

  test.each<[string, string, RegExp]>([
    [
      'a rule without a source',
      rules('{ rule: rot, lo: 16 }'),
      /^3, rulebook, rules, 1, source: no number without a source$/,
    ],
    [
      'a figure with an empty source',
      figures('{ figure: flood-depth, value: 9, source: " " }'),
      /^3, rulebook, figures, 1, source: no number without a source$/,
    ],
    [
      'a source too long to be texted',
      rules(`{ rule: rot, lo: 16, source: "${'long '.repeat(11)}" }`),
      /^3, rulebook, rules, 1, source: at most 50 characters, or as many before a colon/,
    ],
    [
      'half a day',
      rules('{ rule: soak, lo: 2, source: x }', '{ rule: rot, lo: 16.5, source: x }'),
      /^4, rulebook, rules, 2, lo: a whole number of days/,
    ],
    [
      'a bound in words',
      rules('{ rule: rot, lo: two weeks, source: x }'),
      /^3, rulebook, rules, 1, lo: .*number/,
    ],
    [
      'a strength',
      rules('{ rule: rot, lo: 16, strength: must, source: x }'),
      /^3, rulebook, rules, 1: .*strength/,
    ],
    [
      'a cost',
      rules('{ rule: rot, lo: 16, costLo: { rank: 1 }, source: x }'),
      /^3, rulebook, rules, 1: .*costLo/,
    ],
    [
      'a way that is none',
      rules('{ rule: rot, way: { water: tap }, lo: 16, source: x }'),
      /^3, rulebook, rules, 1, way, water: .*rain-fed/,
    ],
    [
      'an activity that is none',
      rules('{ rule: rot, from: dance, lo: 16, source: x }'),
      /^3, rulebook, rules, 1, from: /,
    ],
    [
      'another unit for a figure',
      figures('{ figure: flood-depth, value: 4, unit: inches, source: x }'),
      /^3, rulebook, figures, 1: .*unit/,
    ],
    [
      'a figure without a value',
      figures('{ figure: flood-depth, source: x }'),
      /^3, rulebook, figures, 1, value: /,
    ],
    // What only the rulebook can tell.
    [
      'an unknown figure',
      figures('{ figure: flood-depth, value: 9, source: x }', '{ figure: flood, value: 9, source: x }'),
      /^4, rulebook, figures, 2, figure: the rulebook has no figure "flood"$/,
    ],
    [
      'a figure twice',
      figures('{ figure: flood-depth, value: 9, source: x }', '{ figure: flood-depth, value: 8, source: x }'),
      /^4, rulebook, figures, 2, figure: "flood-depth" is there twice$/,
    ],
    [
      'an unknown rule',
      rules('{ rule: rotting, lo: 16, source: x }'),
      /^3, rulebook, rules, 1, rule: the rulebook has no rule "rotting"$/,
    ],
    [
      'ends that no such rule has',
      rules('{ rule: soak, lo: 2, source: x }', '{ rule: weed, round: 3, lo: 50, source: x }'),
      /^4, rulebook, rules, 2: "weed" goes from transplant to weed, round 1, from /,
    ],
    [
      'an override of nothing',
      rules('{ rule: rot, source: x }'),
      /^3, rulebook, rules, 1: names neither lo nor aim nor hi$/,
    ],
    [
      'lo above hi',
      rules('{ rule: soak, lo: 2, source: x }', '{ rule: rot, lo: 30, aim: null, source: x }'),
      /^4, rulebook, rules, 2: rot: at least 30 days is more than at most 21$/,
    ],
    [
      'an aim outside',
      rules('{ rule: rot, aim: 10, source: x }'),
      /^3, rulebook, rules, 1: rot: the aim, 10 days, is less than at least 14$/,
    ],
    [
      'a bound that has no cost',
      rules('{ rule: rough-level, to: flood, hi: 5, source: x }'),
      /^3, rulebook, rules, 1: rough-level: may give way, but its cost is not given$/,
    ],
    [
      'figures that do not fit each other',
      figures('{ figure: plough-depth.min, value: 16, source: x }'),
      /^3, rulebook, figures, 1: plough-depth.min: 16 is more than the 15 of plough-depth.max$/,
    ],
    ['a list', 'rulebook:\n  - rot\n', /^2, rulebook: /],
  ])('%s is refused at its place', (_, section, mistake) => {
    const [first, ...others] = places(section);
    expect(others).toEqual([]);
    expect(first).toMatch(mistake);
  });

  test('a circle of musts is refused at the override that closes it', () => {
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
    const book = { ...DEFAULT_RULEBOOK, rules: [...DEFAULT_RULEBOOK.rules, back] };
    const section = rules('{ rule: soak, lo: 2, source: x }', '{ rule: back, lo: 1, source: x }');
    const [first, ...others] = places(section, book);
    expect(others).toEqual([]);
    expect(first).toMatch(/^4, rulebook, rules, 2: .*back.*: can never all hold \(as in hoe, transplant/);
  });

  test('mistakes of the section stand beside those of people and plots', () => {
    const broken = VALLEY.replace('owner: ben', 'owner: nobody');
    const reading = readSchemeFile(`${broken}${rules('{ rule: x, lo: 1, source: x }')}`, LOADED);
    expect(reading.ok ? [] : reading.mistakes.map(({ place }) => place.replace(/^line \d+, /, ''))).toEqual([
      'plots, 3, owner',
      'rulebook, rules, 1, rule',
    ]);
  });
});

describe('days of rest, weather and rains', () => {
  test('are absent where the file has none', () => {
    const reading = read('');
    expect(reading.ok).toBe(true);
    if (!reading.ok) return;
    for (const key of ['restDays', 'climate', 'rulebook']) expect(reading.scheme).not.toHaveProperty(key);
    expect(reading.scheme.blocks[0]).not.toHaveProperty('rainFrom');
  });

  test('weekdays by name, single days as dates or counted from the first start', () => {
    const reading = read('restDays: { weekdays: [friday, sunday], days: ["2027-04-14", "+25"] }\n');
    expect(reading).toMatchObject({
      ok: true,
      scheme: { restDays: { weekdays: [5, 7], days: [day('2027-04-14'), LOADED + 25] } },
    });
  });

  test('the usual weather, with its source', () => {
    const rainMm = [0, 0, 10, 40, 90, 120, 200, 210, 150, 60, 5, 0];
    const reading = read(`climate: { rainMm: [${rainMm}], source: "Valley station: 1991-2020" }\n`);
    expect(reading).toMatchObject({
      ok: true,
      scheme: { climate: { rainMm, source: 'Valley station: 1991-2020' } },
    });
  });

  test('the start of the rains, per block', () => {
    const text = VALLEY.replace('name: Upper,', 'name: Upper, rainFrom: "+14",');
    expect(readSchemeFile(text, LOADED)).toMatchObject({
      ok: true,
      scheme: { blocks: [{ rainFrom: LOADED + 14 }] },
    });
  });

  test.each([
    ['restDays: { weekdays: [fri] }\n', /^1, restDays, weekdays, 1: .*friday/],
    ['restDays: { days: ["+5", "14 April"] }\n', /^1, restDays, days, 2: "14 April" is not a day/],
    ['restDays:\n  days:\n    - "2027-02-30"\n', /^3, restDays, days, 1: "2027-02-30" is not a day/],
    ['climate: { rainMm: [1, 2, 3], source: x }\n', /^1, climate, rainMm: twelve numbers, January first/],
    [`climate: { etoMmPerDay: [${'5,'.repeat(12)}] }\n`, /^1, climate, source: /],
  ])('%s is refused at its place', (section, mistake) => {
    const [first, ...others] = places(section);
    expect(others).toEqual([]);
    expect(first).toMatch(mistake);
  });
});

test('the example in the README is read as it stands', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  const [, example = 'no example'] = /```yaml\n([\s\S]*?)```/.exec(readme) ?? [];
  expect(mistakes(example)).toEqual([]);
  expect(read(example)).toMatchObject({ scheme: { restDays: { weekdays: [5] }, rulebook: { rules: [{}] } } });
});
