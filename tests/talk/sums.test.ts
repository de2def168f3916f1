/** Field sums by text: what is answered, what is written down, and what impossible input leads to. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { levelSurvey } from '../../src/agronomy/sums/level-survey.ts';
import { ASHAS, phone, SCHEME } from '../support/small-phone.ts';
import { made } from '../support/sums.ts';

const NUTRIENTS = {
  recommendation: { n: 90, p2o5: 30, k2o: 30, source: 'Valley office: trials' },
  products: [
    { name: 'urea', n: 46, p2o5: 0, k2o: 0, bagKg: 50 },
    { name: 'compound', n: 14, p2o5: 14, k2o: 14, bagKg: 50 },
  ],
};
const CANAL = { litresPerSecond: 12, efficiency: 0.8 };
const withScheme = (change: object) => phone({ ...ASHAS, scheme: { ...SCHEME, ...change } });

describe('impossible input gets a question and records nothing', () => {
  test.each([
    ['seed 0 ha', 'sum.no-area'],
    ['seed 900 ha', 'sum.no-area'],
    ['germ 400 of 100 plot 3', 'sum.no-germination'],
    ['germ 400% plot 3', 'sum.no-germination'],
    ['germ 5 of 8 plot 3', 'sum.no-seeds-few'],
    ['germ plot 3', 'sum.no-germination'],
    ['level plot 3: 4 6 9', 'sum.no-spots'],
    ['level plot 3: 4 6 300 9 12', 'sum.no-depth'],
    ['spots plot 3: 4 six x 9 12', 'sum.no-spots'],
    ['work plough 3 with 0 teams', 'sum.no-teams'],
    ['work weed plot 3', 'sum.no-work'],
    ['npk 900 40 40 plot 3', 'sum.no-need'],
    ['npk 80 40 plot 3', 'sum.no-npk'],
    ['npk 0 0 0 plot 3', 'sum.no-npk'],
    ['nutrients plot 3', 'sum.no-advice'],
    ['water plot 3 july', 'sum.no-climate'],
    ['seed plot 77', 'plots.unknown'],
    ['level plot 3: 4 6 x 12 5 3', 'sum.no-spots'],
    ['spots 3 4 6 9 12', 'sum.no-spots'],
    ['level plot 3: 0 0 0 0 0', 'sum.no-water-yet'],
    ['seed 40 guntas', 'sum.no-unit'],
    ['water plot 3 3 m', 'sum.no-depth'],
    ['water plot 3 0 cm', 'sum.no-depth'],
    ['work plough plot 1 with 2.5 people', 'sum.no-teams'],
    ['seed 1 and 2', 'ask.which-plot-ask'],
  ])('%s: %s', (text, key) => {
    const came = phone().text(text);
    expect(came.keys).toContain(key);
    expect(came.recorded).toEqual([]);
    expect(came.after.reports).toEqual([]);
    expect(came.said).not.toBe('');
  });
});

describe('a survey', () => {
  test('of a level plot counts as levelling done', () => {
    const asha = phone();
    asha.text('puddled 3 yesterday');
    expect(asha.text('level plot 3: 4 6 7 5 5').keys).toContain('sum.level-even');
    expect(asha.standing('3')).toContain('level 2027-03-10');
  });

  test('of an uneven plot leaves levelling open, changes the dates, and UNDO restores them', () => {
    const asha = phone();
    asha.text('puddled 3 yesterday');
    const before = asha.text('dates 3').said;
    asha.text('level plot 3: 4 6 9 12 5');
    expect(asha.standing('3')).toContain('level begun 2027-03-10');
    const uneven = asha.text('dates 3').said;
    expect(uneven).not.toBe(before);
    expect(uneven).toContain('levelling');
    asha.text('undo');
    expect(asha.text('dates 3').said).toBe(before);
  });

  test('finds an uneven plot on the day on which it was levelled, and a level one later', () => {
    const asha = phone();
    asha.text('levelled 3');
    asha.text('level plot 3: 4 6 9 12 5');
    expect(asha.text('dates 3').said).toContain('levelling');
    asha.on('2027-03-12');
    asha.text('level plot 3: 4 6 7 5 5');
    expect(asha.text('dates 3').said).not.toContain('levelling');
  });

  test('on the day on which an uneven one was found: levelled again, or measured level, it is done', () => {
    for (const after of ['levelled 3', 'level plot 3: 5 6 6 5 5']) {
      const asha = phone();
      asha.text('level plot 3: 4 6 9 12 5');
      asha.text(after);
      expect(asha.text('dates 3').said, after).not.toContain('levelling');
    }
  });

  test('told as a report is the same survey', () => {
    const asha = phone();
    const { recorded } = asha.text('levelled plot 3 yesterday: 4 6 9 12 5');
    expect(recorded).toMatchObject([{ activity: 'level', stage: 'started' }]);
    expect(asha.text('dates 3').said).toContain('levelling');
  });

  test('of a planted plot is not taken', () => {
    const asha = phone();
    for (const done of ['puddled 3 yesterday', 'nursery sown 3 on 15 february', 'planted plot 3'])
      asha.text(done);
    const came = asha.text('level plot 3: 4 6 9 12 5');
    expect(came.keys).toEqual(['sum.planted']);
    expect(came.recorded).toEqual([]);
  });

  test.each([
    ['2 inches', '4 inches', '2 inches', '4 inches', '2 inches'],
    ['2in', '4in', '2in', '4in', '2in'],
    ['50 mm', '101 mm', '5 cm', 'about 10 cm', '5.1'],
  ])('asked spot by spot hears units: %s, %s', (...depths) => {
    const asha = phone();
    asha.text('spots 3');
    const [last] = depths.map((depth) => asha.text(depth)).slice(-1);
    expect(last!.keys).toContain('sum.survey-more');
  });

  test.each(['corner 1 is 4', '5 or 6', '5-6', '7 1/2', '20 march', '5 days', 'half', '3 m'])(
    'asked spot by spot, %s is asked again',
    (text) => {
      const asha = phone();
      asha.text('spots 3');
      const { said, recorded } = asha.text(text);
      expect(said).toContain('Spot 1, a corner');
      expect(recorded).toEqual([]);
    },
  );

  test('UNDO in the middle takes back nothing but the survey, and WHY leaves it open', () => {
    const asha = phone();
    asha.text('cleared plot 1');
    asha.text('spots 3');
    asha.text('4');
    asha.text('why');
    expect(asha.text('5').said).toContain('Spot 3');
    asha.text('undo');
    expect(asha.standing('1')).toEqual(['clear 2027-03-10']);
  });

  test('that leaves levelling open shows it among the plots', () => {
    const asha = phone();
    asha.text('level plot 3: 4 6 9 12 5');
    expect(asha.text('plots').said).toContain('levelling going on since Wed 10 Mar');
  });

  test('goes spot by spot, and takes nine where five are uneven', () => {
    const asha = phone();
    asha.text('spots 3');
    for (const depth of ['4', '6 cm', '9', '12']) asha.text(depth);
    expect(asha.text('5').keys).toContain('sum.survey-more');
    for (const depth of ['7', '8', '8']) expect(asha.text(depth).recorded).toEqual([]);
    expect(asha.text('6').recorded).toMatchObject([
      { activity: 'level', stage: 'started', measures: { spotsCm: [4, 6, 9, 12, 5, 7, 8, 8, 6] } },
    ]);
  });

  test('is left when another text comes in between', () => {
    const asha = phone();
    asha.text('spots 3');
    asha.text('4');
    expect(asha.text('ploughed 2').recorded).toMatchObject([{ activity: 'plough' }]);
    expect(asha.text('6').recorded).toEqual([]);
  });

  test('answers every survey that can be, with the soil that the sum moves', () => {
    const depths = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 5, maxLength: 9 });
    fc.assert(
      fc.property(depths, (depthsCm) => {
        const came = phone().text(`spots plot 3: ${depthsCm.join(' ')}`);
        const { isLevel, moveM3 } = made(levelSurvey({ depthsCm, areaHa: 0.4 }, DEFAULT_RULEBOOK));
        expect(came.recorded).toMatchObject([{ stage: isLevel ? 'finished' : 'started' }]);
        const told = Number(/ ([\d.]+) m3/.exec(came.said)?.[1] ?? 0);
        if (!isLevel) expect(Math.abs(told - moveM3)).toBeLessThanOrEqual(1);
        expect(came.parts).toBeLessThanOrEqual(2);
      }),
      { numRuns: 60 },
    );
  });
});

describe('which plot', () => {
  test.each([
    ['seed 3', 'Plot 3'],
    ['npk 3 80 40 40', 'Plot 3'],
    ['water 3 10', 'Plot 3'],
    ['phases 2', 'Plot 2'],
    ['work plough 2 with 2 teams', 'Plot 2'],
    ['germ 82 of 100 3', 'Plot 3'],
    ['germ 3 82%', 'Plot 3'],
  ])('%s is about %s', (text, plot) => {
    expect(withScheme({ nutrients: NUTRIENTS }).text(text).said).toContain(plot);
  });

  test.each(['seed', 'how much seed', 'how much water', 'phases'])(
    '%s: asked where there are several',
    (text) => {
      const asha = phone();
      if (text.includes(' ')) expect(asha.text(text).said).toMatch(/Which plot/);
      expect(asha.text(`${text} plot 2`).said).toContain('Plot 2');
    },
  );

  test('an area needs none where all plots are grown alike', () => {
    expect(phone().text('seed 0.4').said).toMatch(/^0\.4 ha: 16 kg/);
    expect(phone().text('seed 1 acre').said).toMatch(/^0\.4 ha: 16\.2 kg|^0\.4 ha: 17 kg/);
  });
});

describe('nutrients', () => {
  test('go by the scheme’s advice or the figures in the text, and name which', () => {
    const asha = withScheme({ nutrients: NUTRIENTS });
    expect(asha.text('nutrients 3').said).toContain("your scheme's advice");
    expect(asha.text('why').said).toContain('Valley office');
    expect(asha.text('npk 80 40 40 plot 3').said).toContain('your figures');
    expect(asha.text('why').said).not.toContain('Valley office');
  });

  test('of figures per acre are more than of the same per hectare', () => {
    const asha = withScheme({ nutrients: NUTRIENTS });
    const kg = (text: string) => Number(/Before planting: (\d+)/.exec(asha.text(text).said)?.[1]);
    expect(kg('npk 80 40 40 per acre plot 3')).toBeGreaterThan(2 * kg('npk 80 40 40 per ha plot 3'));
  });

  test('put on no more than the bags hold', () => {
    const { said } = withScheme({ nutrients: NUTRIENTS }).text('nutrients 3');
    const bags = Number(/buy ([\d.]+) bags? of urea/.exec(said)?.[1]);
    const [, times, each] = /Top-dress (\d+) times, each ([\d.]+) kg urea/.exec(said) ?? [];
    expect(Number(times) * Number(each)).toBeLessThanOrEqual(bags * 50);
  });

  test('with manure in the question record none', () => {
    const came = withScheme({ nutrients: NUTRIENTS }).text('nutrients plot 3, 500 kg manure');
    expect(came.recorded).toEqual([]);
    expect(came.keys).toContain('sum.manure');
  });

  test('count manure that was reported by weight', () => {
    const asha = withScheme({ nutrients: NUTRIENTS });
    asha.text('manure 2 tons on plot 3 yesterday');
    expect(asha.text('nutrients 3').keys).toContain('sum.manure');
    expect(asha.text('nutrients 2').keys).not.toContain('sum.manure');
  });

  test('are cautioned about once', () => {
    const asha = phone({ ...ASHAS, scheme: { ...SCHEME, nutrients: NUTRIENTS }, cautioned: [] });
    expect(asha.text('nutrients 3').keys).toContain('caution.fertiliser');
    expect(asha.text('nutrients 2').keys).not.toContain('caution.fertiliser');
  });

  test('without products are the arithmetic alone', () => {
    expect(phone().text('npk 80 40 40 1 ha').said).toMatch(/80 kg N, 40 kg P2O5 and 40 kg K2O/);
  });
});

describe('seed', () => {
  test.each([1, 2, 3])('of which %i of 100 sprout is not taken for perfect', (sprouted) => {
    const { said } = phone().text(`germ ${sprouted} of 100 plot 1`);
    expect(said).toContain(`${sprouted} of 100 sprout`);
    expect(phone().text(`germ ${sprouted} of 100`).said).toMatch(/Which plot/);
  });

  test('of which none sprouts is to be replaced', () => {
    expect(phone().text('germ 0 of 100 plot 1').keys).toEqual(['sum.germination', 'sum.other-seed']);
  });

  test('whose seedlings will be old is planted with more of them', () => {
    const asha = phone();
    asha.text('nursery sown 3 on 5 february');
    const [young, old] = [phone().text('seed plot 3').said, asha.text('seed plot 3').said];
    const aHill = (said: string) => Number(/(\d+) seedlings a hill/.exec(said)?.[1]);
    expect(aHill(old)).toBeGreaterThan(aHill(young));
  });

  test('for an area is reckoned for an agent without plots too', () => {
    const agent = { ...ASHAS.people[0]!, role: 'agent' as const };
    expect(phone({ ...ASHAS, people: [agent], plots: [] }).text('seed 0.4 ha').said).toMatch(
      /^0\.4 ha: 16 kg/,
    );
  });
});

describe('one plot needs no name', () => {
  test.each(['seed', 'water', 'work', 'phases', 'spots'])('%s', (text) => {
    const { keys } = phone({ ...ASHAS, plots: ASHAS.plots.slice(0, 1) }).text(text);
    expect(keys[0]).toMatch(/^sum\./);
  });
});

describe('water', () => {
  test('of a block with a canal has hours, of one without has none', () => {
    const blocks = SCHEME.blocks.map((block) => ({ ...block, canal: CANAL }));
    expect(withScheme({ blocks }).text('water 3').keys).toEqual(
      expect.arrayContaining(['sum.water', 'sum.water-turn', 'sum.water-day', 'sum.water-hold']),
    );
    const { keys } = phone().text('water 3');
    expect(keys).toContain('sum.water');
    expect(keys).not.toContain('sum.water-turn');
  });

  test('for a depth and for a month has a reason of its own', () => {
    const climate = { rainMm: Array.from({ length: 12 }, () => 100), source: 'a test' };
    const asha = withScheme({ climate });
    asha.text('water 3 10 cm');
    expect(asha.text('why').said).toContain('the depth times');
    asha.text('water plot 3 july');
    expect(asha.text('why').said).toContain('in such a month');
    asha.text('water 3');
    expect(asha.text('why').said).toContain('soaking takes');
  });

  test('more rain never asks for more', () => {
    const months = (mm: number) => Array.from({ length: 12 }, () => mm);
    const m3 = (mm: number) => {
      const climate = { rainMm: months(mm), etoMmPerDay: months(5), source: 'a test' };
      const { said } = withScheme({ climate }).text('water plot 3 july');
      return Number(/bring ([\d.]+) m3/.exec(said)?.[1]);
    };
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 400 }), (a, b) => {
        expect(m3(Math.max(a, b))).toBeLessThanOrEqual(m3(Math.min(a, b)));
      }),
      { numRuns: 20 },
    );
  });
});
