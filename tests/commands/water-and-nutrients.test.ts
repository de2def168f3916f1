/** The command `sum` for water, months, rain and nutrients: what it prints and what it refuses. */
import { describe, expect, it } from 'vitest';
import { printedSum, runSum } from '../support/run-sum.ts';

const PRODUCTS = '--product urea:46-0-0:50 --product ssp:0-16-0:50 --product mop:0-0-58:50';
const GOOD = [
  'water --area 0.4 --flow 5 --eto 5 --percolation 4 --fallow-days 80',
  'month-need --area 0.4 --month 7 --rain 120 --eto 5',
  'month-need --area 0.4 --month 7 --rain 120 --latitude 45.72 --min 14.8 --max 26.6',
  `nutrients --area 0.4 --need 120-60-40 ${PRODUCTS} --manure-tonnes 2`,
  'rain 20 32 5',
  'water --area 0.4',
];

describe('what is printed', () => {
  it.each(GOOD)('%s: one line of JSON with its sources', (line) => {
    const printed = printedSum(line);
    expect(printed['sum']).toBe(line.split(' ')[0]);
    for (const one of printed['assumptions'] as readonly Record<string, unknown>[])
      expect(one).toMatchObject({ unit: expect.stringMatching(/./), source: expect.stringMatching(/./) });
    expect(printed['sources']).toEqual(expect.arrayContaining([expect.stringMatching(/\[.*\]$/)]));
  });

  // By hand: 300 mm after a long fallow (KP-01), 1.1 x 5 + 4 = 9.5 mm a day.
  it('gives the inputs of the water beside its results', () => {
    expect(printedSum(GOOD[0] ?? '')).toMatchObject({
      areaHa: 0.4,
      flowLps: 5,
      etoMmPerDay: 5,
      percolationMmPerDay: 4,
      fallowDays: 80,
      soakDepthMm: 300,
      lossMmPerDay: 9.5,
      soakedM3: 1200,
      fromCanal: { shortLps: null },
    });
    expect(printedSum(GOOD[5] ?? '')).toMatchObject({ fromCanal: null });
  });

  // By hand, 1.2 x 5 x 31 + 4 x 31 - (0.8 x 120 - 25); FAO-56 example 20: 5.0 mm a day.
  it('gives the need of a month, by the evaporation that is given or found', () => {
    expect(printedSum(GOOD[1] ?? '')).toMatchObject({ needMm: 239, needM3: 956, etoBy: 'given' });
    expect(printedSum(GOOD[2] ?? '')).toMatchObject({
      etoMmPerDay: expect.closeTo(5, 1),
      etoBy: 'hargreaves',
      latitude: 45.72,
      minTemperatureC: 14.8,
      maxTemperatureC: 26.6,
    });
  });

  // A published dose exercise: 260.9, 375 and 69 kg/ha.
  it('gives products, bags and dressings', () => {
    const printed = printedSum(`nutrients --area 1 --need 120-60-40 ${PRODUCTS}`);
    expect(printed).toMatchObject({
      needKgPerHa: { n: 120, p2o5: 60, k2o: 40 },
      exact: [
        { name: 'urea', kg: expect.closeTo(260.9, 1) },
        { name: 'ssp', kg: 375 },
        { name: 'mop', kg: expect.closeTo(69, 1) },
      ],
      buy: [
        { name: 'urea', bags: 5.5, kg: 275 },
        { name: 'ssp', bags: 7.5, kg: 375 },
        { name: 'mop', bags: 1.5, kg: 75 },
      ],
      isLeast: true,
    });
    expect(printed['dressings']).toHaveLength(3);
  });

  it('gives the running sum of rain and what stands', () => {
    expect(printedSum(GOOD[4] ?? '')).toMatchObject({
      sumMm: 57,
      runningMm: [20, 52, 57],
      effectiveMm: 24.2,
      standingMm: [11, 34, 30],
    });
    expect(printedSum('rain 5 --standing 40 --eto 0 --percolation 0')).toMatchObject({ standingMm: [45] });
  });
});

describe('what is refused', () => {
  it.each([
    ['water --flow 5', '--area'],
    ['water --area 0 --flow 5', '0 ha'],
    ['water --area 0.4 --flow 0', '0 l/s'],
    ['water --area 0.4 --flow 5 --flow 6', '--flow is there twice'],
    ['water --area 0.4 --flow 5 --efficiency 80', '80 is no share'],
    ['water --area 0.4 --efficiency 0.8', '--flow is missing'],
    ['water --area 0.4 --eto 50', '50 mm a day'],
    ['water --area 0.4 --percolation -1', '-1 mm a day'],
    ['water --area 0.4 --fallow-days -3', '-3 days'],
    ['water --area 0.4 12', '12 has no meaning'],
    ['month-need --area 0.4 --month 13 --rain 10', '13 is no month'],
    ['month-need --area 0.4 --month 7', '--rain'],
    ['month-need --area 0.4 --month 7 --rain -1', '-1 mm'],
    ['month-need --area 0.4 --month 7 --rain 1 --latitude 10', '--min is missing'],
    ['month-need --area 0.4 --month 7 --rain 1 --eto 5 --max 10', '--max has no meaning'],
    ['month-need --area 0.4 --month 7 --rain 1 --latitude 88 --min 1 --max 9', '88 degrees'],
    ['month-need --area 0.4 --month 7 --rain 1 --latitude 8 --min 19 --max 9', '19 and 9 C'],
    ['month-need --area 0.4 --month 7 --rain 1 --stage old', '--stage old'],
    [`nutrients --area 0.4 --need 0-0-0 ${PRODUCTS}`, '0-0-0 kg/ha'],
    [`nutrients --area 0.4 --need 900-0-0 ${PRODUCTS}`, '900 N'],
    [`nutrients --area 0.4 --need 120-60 ${PRODUCTS}`, '--need 120-60'],
    [`nutrients --area 0.4 --need 120-x-40 ${PRODUCTS}`, '--need 120-x-40'],
    ['nutrients --area 0.4 --need 120-60-40', '--product'],
    ['nutrients --area 0.4 --need 120-60-40 --product urea:46-0-0:50', 'P2O5 is needed'],
    ['nutrients --area 0.4 --need 120-0-0 --product urea:46-0-0', '--product urea:46-0-0 '],
    ['nutrients --area 0.4 --need 120-0-0 --product urea:46-60-0:50', 'urea 46-60-0 %'],
    ['nutrients --area 0.4 --need 120-0-0 --product urea:0-0-0:50', 'urea 0-0-0 %'],
    ['nutrients --area 0.4 --need 120-0-0 --product urea:46-0-0:0', 'urea 0 kg a bag'],
    [`nutrients --area 0.4 --need 120-60-40 ${PRODUCTS} --product urea:45-0-0:50`, 'urea is there twice'],
    [`nutrients --area 0.4 --need 120-60-40 ${PRODUCTS} --manure-tonnes -1`, '-1 t of manure'],
    ['rain', 'numbers'],
    ['rain 20 much', 'much is not a number'],
    ['rain 20 -5', '-5 mm'],
    ['rain 20 900', '900 mm'],
    ['rain 20 --standing 400', '400 mm cannot stand'],
  ])('%s: exit code 2 and one line that names %s', (line, named) => {
    const { code, out, err } = runSum(line);
    expect(code).toBe(2);
    expect(out).toEqual([]);
    expect(err).toHaveLength(1);
    expect(err[0]).toContain(named);
  });
});
