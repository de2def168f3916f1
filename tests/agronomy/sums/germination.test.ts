/** The germination test: what it tells, and how it is taken. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { germination, germinationTest } from '../../../src/agronomy/sums/germination.ts';
import { made, refusedAs } from '../../support/sums.ts';

describe('a test of germination', () => {
  // IRRI quotes its seed rates at 80 %; that other seed is got under 60 % is judgement.
  it.each([
    [82, 100, { percent: 82, otherSeed: false }],
    [80, 100, { percent: 80, otherSeed: false, timesUsualRate: 1 }],
    [120, 300, { percent: 40, otherSeed: true, timesUsualRate: 2 }],
    [60, 100, { percent: 60, otherSeed: false }],
    [59, 100, { percent: 59, otherSeed: true }],
    [0, 100, { percent: 0, otherSeed: true, timesUsualRate: null }],
    [50, 50, { percent: 100, otherSeed: false, timesUsualRate: 0.8 }],
  ])('%i of %i sprouted', (sprouted, of, told) => {
    expect(germination({ sprouted, of }, book)).toMatchObject(told);
  });

  it.each([
    [5, 0, 'seeds-none: 0'],
    [20, 49, 'seeds-few: 49'],
    [101, 100, 'sprouted-over: 101 of 100'],
    [-1, 100, 'not-whole: -1'],
    [82.5, 100, 'not-whole: 82.5'],
    [82, Number.NaN, 'not-a-number: NaN'],
  ])('%d of %d is refused: %s', (sprouted, of, refused) => {
    expect(refusedAs(germination({ sprouted, of }, book))).toBe(refused);
  });

  it('sows as many living seeds, however many sprout', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100 }), (sprouted) => {
        const { percent, timesUsualRate } = made(germination({ sprouted, of: 100 }, book));
        expect((timesUsualRate ?? 0) * percent).toBeCloseTo(80, 9);
      }),
    );
  });
});

describe('how a stock is tested', () => {
  // IRRI fact sheet: 3 lots of 100 seeds, from the square root of the bags, rounded up.
  it.each([
    [1, 1],
    [2, 2],
    [4, 2],
    [5, 3],
    [30, 6],
    [100, 10],
    [101, 11],
  ])('of %i bags, %i are opened', (bags, bagsToOpen) => {
    expect(germinationTest(bags, book)).toMatchObject({ bagsToOpen, lots: 3, seedsALot: 100 });
  });

  it.each([
    [0, 'bags-none: 0'],
    [-4, 'not-whole: -4'],
    [2.5, 'not-whole: 2.5'],
    [Number.NaN, 'not-a-number: NaN'],
  ])('%d bags are refused: %s', (bags, refused) => {
    expect(refusedAs(germinationTest(bags, book))).toBe(refused);
  });
});
