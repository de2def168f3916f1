/** The levelling survey: by hand, against soil moved bit by bit, and what holds for any plot. */
import fc from 'fast-check';
import { max, mean, min, sum } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { levelSurvey } from '../../../src/agronomy/sums/level-survey.ts';
import { made, refusedAs } from '../../support/sums.ts';

const survey = (depthsCm: readonly number[], areaHa = 0.4) => made(levelSurvey({ depthsCm, areaHa }, book));
const depths = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 5, maxLength: 12 });
const areas = fc.integer({ min: 1, max: 2000 }).map((squares) => squares / 100);
const sumOf = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0);

/**
 * Digs: time and again takes one layer from the highest spot and lays it on the lowest, till all stand alike. A layer is as
 * many parts of a cm as there are spots, so that the mean is a whole number of layers. Gives the soil moved, in m3.
 */
function digTillLevel(depthsCm: readonly number[], areaHa: number): number {
  const layers = depthsCm.map((depth) => depth * depthsCm.length);
  let moved = 0;
  for (;;) {
    const [high, low] = [Math.min(...layers), Math.max(...layers)];
    if (high === low) break;
    layers[layers.indexOf(high)] = high + 1;
    layers[layers.indexOf(low)] = low - 1;
    moved += 1;
  }
  const shareM2 = (areaHa * 10_000) / depthsCm.length;
  return moved * (0.01 / depthsCm.length) * shareM2;
}

describe('a survey by hand', () => {
  /*
   * 4 + 6 + 9 + 12 + 5 = 36, over 5 spots 7.2. Off the mean: 3.2, 1.2, -1.8, -4.8, 2.2; above it 6.6 in all. Each spot stands
   * for 4000 / 5 = 800 m2: 6.6 cm x 800 m2 = 52.8 m3, 52,800 l, in barrows of 60 l (common practice) 880. 12 - 4 = 8 cm
   * apart, over the 5 cm of PalayCheck Key Check 2: seedlings of 8 days are 8 cm tall (from memory).
   */
  it('tells where to cut and fill, and how much', () => {
    const found = survey([4, 6, 9, 12, 5]);
    expect(found).toMatchObject({ meanCm: 7.2, rangeCm: 8, isLevel: false, barrows: 880, clearAgeDays: 8 });
    expect(found.moveM3).toBeCloseTo(52.8, 9);
    expect(found.cut.map(({ spot, cm }) => [spot, cm.toFixed(6)])).toEqual([
      [1, '3.200000'],
      [2, '1.200000'],
      [5, '2.200000'],
    ]);
    expect(found.fill.map(({ spot, cm }) => [spot, cm.toFixed(6)])).toEqual([
      [3, '1.800000'],
      [4, '4.800000'],
    ]);
  });

  // PalayCheck Key Check 2: 5 cm between highest and lowest are level, also where 10.3 - 5.3 comes out a hair over 5.
  it.each([
    [[3, 4, 5, 6, 8], true],
    [[3, 4, 5, 6, 8.1], false],
    [[5.3, 8, 8, 8, 10.3], true],
  ])('%j is level: %s', (depthsCm, isLevel) => {
    expect(survey(depthsCm)).toMatchObject({ isLevel, clearAgeDays: isLevel ? null : 6 });
  });

  it('leaves spots alone that are off by the 1 cm of a stick, though their soil counts', () => {
    const found = survey([4, 4, 5, 6, 6], 1);
    expect(found).toMatchObject({ cut: [], fill: [] });
    expect(found.moveM3).toBeCloseTo(40, 9);
    expect(survey([3.9, 4, 5, 6, 6.1], 1)).toMatchObject({ cut: [{ spot: 1 }], fill: [{ spot: 5 }] });
  });

  it('names the spots given as 0, which may stand higher yet', () => {
    expect(survey([0, 6, 9, 0, 5]).moundSpots).toEqual([1, 4]);
  });

  it('moves nothing on a plot that is flat', () => {
    expect(survey([5, 5, 5, 5, 5])).toMatchObject({
      moveM3: 0,
      barrows: 0,
      cut: [],
      fill: [],
      isLevel: true,
    });
  });

  it("goes by the scheme's own figures", () => {
    const own = { ...book.figures['level-range.max'], value: 8, unit: 'cm', sources: [] };
    const valley = { ...book, figures: { ...book.figures, 'level-range.max': own } };
    expect(made(levelSurvey({ depthsCm: [4, 6, 9, 12, 5], areaHa: 0.4 }, valley)).isLevel).toBe(true);
  });
});

describe('any survey', () => {
  it('moves as much soil as digging bit by bit', () => {
    fc.assert(
      fc.property(depths, areas, (depthsCm, areaHa) => {
        expect(survey(depthsCm, areaHa).moveM3).toBeCloseTo(digTillLevel(depthsCm, areaHa), 6);
      }),
    );
  });

  it('has the mean, the spread and the cut of simple-statistics', () => {
    fc.assert(
      fc.property(depths, areas, (depthsCm, areaHa) => {
        const found = survey(depthsCm, areaHa);
        const middle = mean([...depthsCm]);
        expect(found.meanCm).toBeCloseTo(middle, 9);
        expect(found.rangeCm).toBeCloseTo(max([...depthsCm]) - min([...depthsCm]), 9);
        const above = sum(depthsCm.map((depth) => Math.max(0, middle - depth)));
        expect(found.moveM3).toBeCloseTo((above / 100) * ((areaHa * 10_000) / depthsCm.length), 6);
      }),
    );
  });

  it('cuts as much as it fills', () => {
    fc.assert(
      fc.property(depths, (depthsCm) => {
        const sharp = { ...book.figures['level.tolerance'], value: 0, unit: 'cm', sources: [] };
        const exact = { ...book, figures: { ...book.figures, 'level.tolerance': sharp } };
        const { cut, fill } = made(levelSurvey({ depthsCm, areaHa: 1 }, exact));
        expect(sumOf(cut.map(({ cm }) => cm))).toBeCloseTo(sumOf(fill.map(({ cm }) => cm)), 6);
      }),
    );
  });

  it('of a plot so many times as large moves so many times as much', () => {
    fc.assert(
      fc.property(depths, fc.integer({ min: 2, max: 50 }), (depthsCm, times) => {
        const moved = survey(depthsCm, 0.1).moveM3 * times;
        expect(survey(depthsCm, 0.1 * times).moveM3).toBeCloseTo(moved, 6);
      }),
    );
  });

  it('in another order finds the same at the same spots', () => {
    fc.assert(
      fc.property(depths, (depthsCm) => {
        const [there, back] = [survey(depthsCm), survey(depthsCm.toReversed())];
        const turned = back.cut.map(({ spot, cm }) => ({ spot: depthsCm.length + 1 - spot, cm })).reverse();
        expect(turned.map(({ spot }) => spot)).toEqual(there.cut.map(({ spot }) => spot));
        expect(back.moveM3).toBeCloseTo(there.moveM3, 6);
        expect(back).toMatchObject({ rangeCm: there.rangeCm, isLevel: there.isLevel });
      }),
    );
  });

  it('with more water over all of it finds another mean and nothing else', () => {
    fc.assert(
      fc.property(depths, fc.integer({ min: 1, max: 30 }), (depthsCm, moreCm) => {
        const [dry, wet] = [survey(depthsCm), survey(depthsCm.map((depth) => depth + moreCm))];
        expect(wet.meanCm - dry.meanCm).toBeCloseTo(moreCm, 6);
        expect(wet.moveM3).toBeCloseTo(dry.moveM3, 6);
        expect(wet).toMatchObject({
          rangeCm: dry.rangeCm,
          isLevel: dry.isLevel,
          clearAgeDays: dry.clearAgeDays,
        });
        expect(wet.cut.map(({ spot }) => spot)).toEqual(dry.cut.map(({ spot }) => spot));
        expect(wet.fill.map(({ spot }) => spot)).toEqual(dry.fill.map(({ spot }) => spot));
      }),
    );
  });
});

describe('what is refused', () => {
  it.each([
    [[4, 6, 9, 12], 0.4, 'spots-few: 4'],
    [[], 0.4, 'spots-few: 0'],
    [[4, 6, -9, 12, 5], 0.4, 'depth-below-zero: -9'],
    [[4, 6, 9, 300, 5], 0.4, 'depth-over: 300'],
    [[4, 6, Number.NaN, 12, 5], 0.4, 'not-a-number: NaN'],
    [[4, 6, 9, 12, Number.POSITIVE_INFINITY], 0.4, 'not-a-number: Infinity'],
    [[4, 6, 9, 12, 5], 0, 'area-zero: 0'],
    [[4, 6, 9, 12, 5], -1, 'area-zero: -1'],
    [[4, 6, 9, 12, 5], 101, 'area-over: 101'],
    [[4, 6, 9, 12, 5], Number.NaN, 'not-a-number: NaN'],
    [[0, 6, 9, 100, 5], 100, null],
  ])('depths %j on %d ha: %s', (depthsCm, areaHa, refused) => {
    expect(refusedAs(levelSurvey({ depthsCm, areaHa }, book))).toBe(refused);
  });
});
