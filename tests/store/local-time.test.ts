import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isoDay, parseDay } from '../../src/plan/day.ts';
import { instantOf, localDay, localMinute } from '../../src/store/local-time.ts';

test.each([
  ['2027-03-10T20:59:59Z', 'Africa/Nairobi', '2027-03-10', 23 * 60 + 59],
  ['2027-03-10T21:00:00Z', 'Africa/Nairobi', '2027-03-11', 0],
  ['2027-03-10T18:29:00Z', 'Asia/Kolkata', '2027-03-10', 23 * 60 + 59],
  ['2027-03-10T18:30:00Z', 'Asia/Kolkata', '2027-03-11', 0],
  ['2027-03-10T02:00:00Z', 'America/Lima', '2027-03-09', 21 * 60],
  // Clocks go forward at 01:00 UTC.
  ['2027-03-28T00:59:00Z', 'Europe/London', '2027-03-28', 59],
  ['2027-03-28T01:00:00Z', 'Europe/London', '2027-03-28', 120],
  // Samoa had no 30 December 2011.
  ['2011-12-30T09:59:00Z', 'Pacific/Apia', '2011-12-29', 23 * 60 + 59],
  ['2011-12-30T10:00:00Z', 'Pacific/Apia', '2011-12-31', 0],
])('%s in %s is %s, minute %d', (instant, zone, date, minute) => {
  const ms = Date.parse(instant);
  expect(isoDay(localDay(ms, zone))).toBe(date);
  expect(localMinute(ms, zone)).toBe(minute);
});

test('the day agrees with Intl at any instant, in any order of asking', () => {
  const zones = ['Africa/Nairobi', 'Asia/Dhaka', 'Europe/London', 'America/Sao_Paulo', 'Asia/Kathmandu'];
  const instants = fc.integer({ min: Date.parse('2000-01-01'), max: Date.parse('2040-01-01') });
  fc.assert(
    fc.property(fc.array(fc.tuple(instants, fc.constantFrom(...zones)), { minLength: 1 }), (asked) => {
      for (const [ms, timeZone] of asked) {
        const written = new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short' }).format(ms);
        expect(isoDay(localDay(ms, timeZone))).toBe(written);
      }
    }),
  );
});

test('a wall-clock time becomes its instant and back', () => {
  const day = parseDay('2027-03-10') ?? 0;
  const ms = instantOf(day, 17 * 60, 'Africa/Nairobi');
  expect(new Date(ms).toISOString()).toBe('2027-03-10T14:00:00.000Z');
  expect([localDay(ms, 'Africa/Nairobi'), localMinute(ms, 'Africa/Nairobi')]).toEqual([day, 17 * 60]);
});
