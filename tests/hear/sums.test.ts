/** What the numbers in a request for a field sum are taken for. */
import { describe, expect, test } from 'vitest';
import { hearEnglish } from './languages.ts';

const heard = (text: string) => hearEnglish(text).readings;

describe('a request for a sum', () => {
  test.each([
    ['seed plot 3', { sum: 'seed', plots: ['3'], bare: [] }],
    ['plot 3 seed', { sum: 'seed', plots: ['3'], bare: [] }],
    ['seed 3', { sum: 'seed', plots: [], bare: [3] }],
    ['seed 0.4 ha', { sum: 'seed', areaHa: 0.4, bare: [] }],
    ['seed half acre', { sum: 'seed', areaHa: 0.2023, bare: [] }],
    ['seed 1 and a half acres', { sum: 'seed', areaHa: 0.607, bare: [] }],
    ['seed plot 3 germ 75%', { sum: 'germination', plots: ['3'], percent: 75, bare: [] }],
    ['germ 82 of 100 plot 3', { sum: 'germination', plots: ['3'], bare: [82, 100] }],
    ['germ 82/100', { sum: 'germination', bare: [82, 100] }],
    ['germ 82%', { sum: 'germination', percent: 82, bare: [] }],
    ['germination 100 82', { sum: 'germination', bare: [82, 100] }],
    ['germ 100 seeds 82 sprouted', { sum: 'germination', bare: [82, 100] }],
    ['germ 400 of 100', { sum: 'germination', bare: [400, 100] }],
    ['level plot 3: 4 6 9 12 5', { sum: 'level', plots: ['3'], depthsCm: [4, 6, 9, 12, 5] }],
    ['spots plot 3 4 6 9 12 5', { sum: 'level', plots: ['3'], depthsCm: [4, 6, 9, 12, 5] }],
    ['level 3: 4, 6, 9, 12, 5 cm', { sum: 'level', plots: ['3'], depthsCm: [4, 6, 9, 12, 5] }],
    ['spots plot 3: 2 3 4 5 2 inches', { sum: 'level', depthsCm: [5.1, 7.6, 10.2, 12.7, 5.1] }],
    ['spots plot 3: 40 mm 60 mm 90 mm 120 mm 50 mm', { sum: 'level', depthsCm: [4, 6, 9, 12, 5] }],
    ['spots plot 3: 2in 3in 4in 5in 2in', { sum: 'level', depthsCm: [5.1, 7.6, 10.2, 12.7, 5.1] }],
    ['spots plot 3: 2" 3" 4" 5" 2"', { sum: 'level', depthsCm: [5.1, 7.6, 10.2, 12.7, 5.1] }],
    ['level plot 3: 4 6 x 12 5 3', { sum: 'level', torn: true }],
    ['level plot 3: 4 6 dry 12 5 7', { sum: 'level', torn: true }],
    ['level plot 3: 4 6 9 12 x 5', { sum: 'level', torn: true }],
    ['level plot 3: 4,5 6,5 9 12 5', { sum: 'level', torn: true }],
    ['level plot 3: 4,5 6.5 9 12 5', { sum: 'level', plots: ['3'], depthsCm: [4.5, 6.5, 9, 12, 5] }],
    ['level plot 3: 4.5 6,5 9 12,5 5 cm', { sum: 'level', depthsCm: [4.5, 6.5, 9, 12.5, 5] }],
    ['level plot 3: 4, 5 6.5 9 12 5', { sum: 'level', torn: true }],
    ['level plot 3: 4,5,6.5,9,12,5', { sum: 'level', depthsCm: [4, 5, 6.5, 9, 12, 5] }],
    ['level plot 3: 4,5 6.5 9, 12 5', { sum: 'level', torn: true }],
    ['level plot 3: 4 5,6.5 9 12 5', { sum: 'level', torn: true }],
    ['seed 40 guntas', { sum: 'seed', unknownUnit: 'guntas', bare: [] }],
    ['seed 20 x 30 m', { sum: 'seed', unknownUnit: 'x' }],
    ['seed 10 sacks', { sum: 'seed', unknownUnit: 'sacks' }],
    ['npk 80 40 40 per acre plot 3', { sum: 'nutrients', bare: [80, 40, 40], perHa: 0.40469 }],
    ['npk 80 40 40 per ha plot 3', { sum: 'nutrients', bare: [80, 40, 40], perHa: 1 }],
    ['nutrients plot 3, 500 kg manure', { sum: 'nutrients', plots: ['3'], manureT: 0.5 }],
    ['i have 82 out of 100 seeds germinated plot 3', { sum: 'germination', bare: [82, 100] }],
    ['85% germination', { sum: 'germination', percent: 85 }],
    ['seed plot 1 germ 82', { sum: 'germination', plots: ['1'], bare: [82] }],
    ['seed for plot 2 and 3', { sum: 'seed', plots: ['2', '3'] }],
    ['spots', { sum: 'level', plots: [], depthsCm: [] }],
    ['water plot 3', { sum: 'water', plots: ['3'], bare: [] }],
    ['water 0.4 ha 10 cm', { sum: 'water', areaHa: 0.4, depthsCm: [10], bare: [] }],
    ['how much water for plot 3 in july', { sum: 'water', plots: ['3'], month: 7 }],
    ['water july plot 3', { sum: 'water', plots: ['3'], month: 7 }],
    ['npk 120 60 40 plot 3', { sum: 'nutrients', plots: ['3'], bare: [120, 60, 40] }],
    ['npk 120-60-40', { sum: 'nutrients', bare: [120, 60, 40] }],
    ['npk 80 40 40 plot 3 manure 2 tons', { sum: 'nutrients', bare: [80, 40, 40], manureT: 2 }],
    ['npk 80 40 40 plot 3 manure 500 kg', { sum: 'nutrients', bare: [80, 40, 40], manureT: 0.5 }],
    ['work plough plot 3 with 3 teams', { sum: 'work', plots: ['3'], activity: 'plough', teams: 3 }],
    ['how many people to plant plot 3', { sum: 'work', plots: ['3'], activity: 'transplant' }],
    ['work planting 3 6 people', { sum: 'work', bare: [3], activity: 'transplant', teams: 6 }],
    ['phases plot 3', { sum: 'phases', plots: ['3'] }],
  ])('%s', (text, expected) => {
    expect(heard(text)).toMatchObject([{ kind: 'sum', ...expected }]);
  });
});

describe('a text about the same things that asks for no sum', () => {
  test.each([
    ['labour ploughed plot 3', 'plough'],
    ['fertiliser 2 bags plot 3', 'basal'],
    ['levelled plot 3: 4 6 5 5 6', 'level'],
    ['sowed seed 10 kg in nursery', 'sow-nursery'],
  ])('%s', (text, activity) => {
    const { readings, unclear } = hearEnglish(text);
    const all = [...readings, ...(unclear?.choices ?? [])];
    expect(all.some((one) => one.kind === 'sum')).toBe(false);
    expect(all.some((one) => 'activity' in one && one.activity === activity)).toBe(true);
  });
});
