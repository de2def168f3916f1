import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { dayFromParts, dayParts, isoDay, parseDay } from '../../src/plan/day.ts';

const MS_PER_DAY = 86_400_000;
const FIRST = Date.UTC(1583, 0, 1) / MS_PER_DAY;
const LAST = Date.UTC(9999, 11, 31) / MS_PER_DAY;
const days = fc.integer({ min: FIRST, max: LAST });
const ordinaryDays = fc.integer({
  min: Date.UTC(1900, 0, 1) / MS_PER_DAY,
  max: Date.UTC(2199, 11, 31) / MS_PER_DAY,
});
const EPOCH = Temporal.PlainDate.from('1970-01-01');

/** The same day by the reference; null where it has none. */
function temporalDay(year: number, month: number, day: number): number | null {
  try {
    return EPOCH.until(Temporal.PlainDate.from({ year, month, day }, { overflow: 'reject' })).days;
  } catch {
    return null;
  }
}

describe('days', () => {
  it('count from 1970 as Temporal does', () => {
    fc.assert(
      fc.property(fc.oneof(days, ordinaryDays), (day) => {
        const outside = EPOCH.add({ days: day });
        expect(isoDay(day)).toBe(outside.toString());
        expect(dayParts(day)).toEqual({
          year: outside.year,
          month: outside.month,
          dayOfMonth: outside.day,
          weekday: outside.dayOfWeek,
        });
      }),
    );
  });

  it('come back from their text and their parts', () => {
    fc.assert(
      fc.property(days, (day) => {
        const { year, month, dayOfMonth } = dayParts(day);
        expect(parseDay(isoDay(day))).toBe(day);
        expect(dayFromParts(year, month, dayOfMonth)).toBe(day);
      }),
    );
  });

  it('exist for the very parts for which Temporal has a day', () => {
    const parts = fc.tuple(
      fc.integer({ min: 1583, max: 9999 }),
      fc.integer({ min: 0, max: 14 }),
      fc.integer({ min: 0, max: 33 }),
    );
    fc.assert(
      fc.property(parts, ([year, month, dayOfMonth]) => {
        expect(dayFromParts(year, month, dayOfMonth)).toBe(temporalDay(year, month, dayOfMonth));
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    ['1970-01-01', 0],
    ['1969-12-31', -1],
    ['1970-03-01', 59],
    ['2000-02-29', 11_016],
    ['2027-03-10', Date.UTC(2027, 2, 10) / MS_PER_DAY],
    ['2028-02-29', Date.UTC(2028, 1, 29) / MS_PER_DAY],
  ])('%s is day %i', (text, day) => {
    expect(parseDay(text)).toBe(day);
    expect(isoDay(day)).toBe(text);
  });

  it.each([
    '2027-04-31',
    '2027-02-29',
    '1900-02-29',
    '2027-13-01',
    '2027-00-10',
    '2027-01-00',
    '2027-1-5',
    '27-01-05',
    '05-01-2027',
    '2027-01-05T00:00',
    ' 2027-01-05',
    '2027-01-05\n',
    '',
  ])('%j is no day', (text) => {
    expect(parseDay(text)).toBeNull();
  });

  it.each([
    [2027, 4, 31],
    [2027, 2, 29],
    [2100, 2, 29],
    [-1, 1, 1],
    [2027, 1.5, 1],
    [20_270, 1, 1],
  ])('%i-%i-%i is no day', (year, month, dayOfMonth) => {
    expect(dayFromParts(year, month, dayOfMonth)).toBeNull();
  });
});
