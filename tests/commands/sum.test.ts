/** The command `sum`: what it prints, what it refuses and how, for the sums of levelling, seed, work and phases. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { SUMS } from '../../src/commands/sum.ts';
import { printedSum, runSum } from '../support/run-sum.ts';
import { newFolder } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const GOOD = [
  'level --area 0.4 4 6 9 12 5',
  'seed --area 0.4 --nursery wet-bed --germination 82 --age-days 33 --plant 2027-04-01',
  'seed --area 0.4 --way wet-seed',
  'germination 82 100',
  'germination --bags 30',
  'work plough --area 0.4 --tillage hoe --teams 3',
  'phases --variety 110 --sown 2027-03-01 --planted 2027-03-22',
  'phases --variety 150 --sown 2027-03-01 --ripens by-local-date',
];

describe('what is printed', () => {
  it.each(GOOD)('%s: one line of JSON with its sources', (line) => {
    const printed = printedSum(line);
    expect(printed['sum']).toBe(line.split(' ')[0]);
    const assumptions = printed['assumptions'] as readonly Record<string, unknown>[];
    expect(assumptions.length).toBeGreaterThan(0);
    for (const one of assumptions) {
      expect(one).toEqual({
        name: expect.stringMatching(/./),
        value: expect.any(Number),
        unit: expect.stringMatching(/./),
        source: expect.stringMatching(/./),
      });
    }
    expect(printed['sources']).toEqual(expect.arrayContaining([expect.stringMatching(/./)]));
  });

  it('gives the survey by hand, without the noise of fractions', () => {
    expect(printedSum('level --area 0.4 4 6 9 12 5')).toMatchObject({
      areaHa: 0.4,
      depthsCm: [4, 6, 9, 12, 5],
      moveM3: 52.8,
      cut: [
        { spot: 1, cm: 3.2 },
        { spot: 2, cm: 1.2 },
        { spot: 5, cm: 2.2 },
      ],
    });
  });

  // 0.4 x 40 x 80 / 82 (IRRI); 33 - 20 days are one full week (IIRR, PhilRice).
  it('gives seed, bed, seedlings and the day of sowing', () => {
    expect(printedSum(GOOD[1] ?? '')).toMatchObject({
      seedKg: 15.6097560976,
      bedM2: 400,
      hillsPerM2: 25,
      seedlingsAHill: 3,
      sowOn: '2027-02-27',
    });
  });

  it('gives work in days and hours', () => {
    const printed = printedSum(GOOD[5] ?? '');
    expect(printed).toMatchObject({ days: 20, personDays: 60, personHours: 420 });
    expect(printed['withMore']).toEqual([
      { teams: 6, days: 10 },
      { teams: 9, days: 7 },
    ]);
  });

  // IRRI: 110 days are 45, 80, 110, and a week of transplanting (Yoshida 1981): 52, 87 and 117 after 1 March.
  it('gives the days of the phases', () => {
    expect(printedSum(GOOD[6] ?? '')).toMatchObject({
      panicleOn: '2027-04-22',
      floweringOn: '2027-05-27',
      drainOn: '2027-06-16',
      harvestOn: '2027-06-26',
      birdsFrom: '2027-06-03',
      birdsTo: '2027-06-26',
      lacks: null,
    });
  });

  it('says what a crop that ripens by a local date lacks', () => {
    expect(printedSum(GOOD[7] ?? '')).toMatchObject({
      panicleOn: null,
      harvestOn: null,
      lacks: 'harvest-date',
    });
  });

  it("goes by a scheme's own figures, with the scheme's source", () => {
    const path = join(newFolder(onTestFinished), 'scheme.yaml');
    const own = '{ figure: seed.rate.wet-bed.max, value: 50, source: "Valley office: 2025" }';
    writeFileSync(path, `${VALLEY}rulebook:\n  figures:\n    - ${own}\n`);
    const { assumptions, seedKg } = printedSum(`seed --area 0.4 --nursery wet-bed --scheme ${path}`);
    expect(seedKg).toBe(20);
    expect(assumptions).toContainEqual({
      name: 'seed.rate.wet-bed.max',
      value: 50,
      unit: 'kg/ha',
      source: expect.stringContaining('Valley office: 2025'),
    });
  });
});

describe('what is refused', () => {
  it.each([
    ['level --area 0.4 4 6 9 12', '4 spots'],
    ['level --area 0.4 4 -6 9 12 5', '-6 cm'],
    ['level --area 0.4 4 six 9 12 5', 'six is not a number'],
    ['level --area 0.4 4 6 9 300 5', '300 cm'],
    ['level --area 0.4 4 6 9 1e3 5', '1e3 is not a number'],
    ['level --area 0 4 6 9 12 5', '0 ha'],
    ['level --area -0.4 4 6 9 12 5', '-0.4 ha'],
    ['level --area 0,4 4 6 9 12 5', '--area 0,4'],
    ['level --area 4000 4 6 9 12 5', '4000 ha'],
    ['level 4 6 9 12 5', '--area'],
    ['level --area 0.4', 'numbers'],
    ['level --acres 1 4 6 9 12 5', '--acres'],
    ['seed --area 0.4', '--nursery'],
    ['seed --area 0.4 --nursery tray', '--nursery tray'],
    ['seed --area 0.4 --nursery wet-bed --germination 400', '400 %'],
    ['seed --area 0.4 --nursery wet-bed --germination 0', '0 %'],
    ['seed --area 0.4 --nursery wet-bed 12', '12 has no meaning'],
    ['seed --area 0.4 --nursery wet-bed --variety 20', '20 days'],
    ['seed --area 0.4 --way wet-seed --nursery mat', '--nursery has no meaning'],
    ['germination 101 100', '101 of 100'],
    ['germination 5 20', '20 seeds'],
    ['germination 5 0', '0 seeds'],
    ['germination -5 100', '-5 is not a count'],
    ['germination 82', '1 numbers'],
    ['germination 82 100 3', '3 numbers'],
    ['germination --bags 0', '0 bags'],
    ['work --area 0.4 --tillage hoe', 'the work'],
    ['work sing --area 0.4 --tillage hoe', 'sing'],
    ['work plough --area 0.4 --tillage spade', '--tillage spade'],
    ['work plough --area 0.4 --tillage none', 'plough with tillage none'],
    ['work plough --area 0.4 --tillage hoe --teams 0', '0 teams'],
    ['phases --variety 110', '--sown'],
    ['phases --variety 110 --sown 2027-02-30', '2027-02-30'],
    ['phases --variety 500 --sown 2027-02-20', '500 days'],
    ['phases --variety 110 --sown 2027-03-01 --planted 2027-03-01', '2027-03-01 is not after'],
    ['phases --variety 110 --sown 2027-03-01 --planted 2028-03-22', '2028-03-22 is too long'],
    ['phases --variety 110 --sown 2027-03-01 --planted 2027-03-22 --way wet-seed', '--planted'],
    ['phases --variety 110 --sown 2027-03-01 --harvest 2027-06-01', '--harvest'],
    ['phases --variety 110 --sown 2027-03-01 --ripens by-local-date --harvest 2027-02-01', '2027-02-01'],
    ['bushels 3', '"bushels"'],
    ['', '""'],
    ['constructor', '"constructor"'],
    ['level --area 0.4 4 6 9 12 5 --scheme nowhere.yaml', 'nowhere.yaml'],
    ['level --area 0.4 4 6 9 12 5 --scheme', '--scheme'],
  ])('%s: code 2 and one line that names it', (line, named) => {
    const { code, out, err } = runSum(line);
    expect([code, out, err.length]).toEqual([2, [], 1]);
    expect(err[0]).toContain(named);
    expect(err[0]).not.toContain('\n');
  });

  it('is said in words, not by its short name', () => {
    const { err } = runSum('level --area 0.4 4 6 9 12');
    expect(err[0]).not.toContain('spots-few');
  });

  it('shows how every sum is called when it is called without anything', () => {
    for (const [name, { usage }] of Object.entries(SUMS)) {
      const { code, err } = runSum(name);
      expect([name, code]).toEqual([name, 2]);
      expect(err[0]).toContain(usage);
    }
  });
});
