import { describe, expect, test } from 'vitest';
import type { Day } from '../../src/plan/day.ts';
import { parseDay } from '../../src/plan/day.ts';
import { afterQuietMs, newsEndMs, visitsEndMs } from '../../src/sweeps/quiet-hours.ts';

const NIGHT = { fromMinute: 20 * 60, toMinute: 7 * 60 };
const SIESTA = { fromMinute: 12 * 60, toMinute: 14 * 60 };
const ms = Date.parse;
const iso = (instant: number) => new Date(instant).toISOString().slice(0, 16);
const calm = (now: string, quiet: typeof NIGHT, zone: string) => iso(afterQuietMs(ms(now), quiet, zone));

describe('the first instant that is not quiet', () => {
  test.each([
    // Nairobi is three hours ahead all year.
    ['just before the night', '2027-03-10T16:59:00Z', '2027-03-10T16:59'],
    ['as the night begins', '2027-03-10T17:00:00Z', '2027-03-11T04:00'],
    ['before midnight', '2027-03-10T20:59:00Z', '2027-03-11T04:00'],
    ['after midnight', '2027-03-10T21:00:00Z', '2027-03-11T04:00'],
    ['just before the morning', '2027-03-11T03:59:59Z', '2027-03-11T04:00'],
    ['as the morning begins', '2027-03-11T04:00:00Z', '2027-03-11T04:00'],
    ['over the end of a year', '2027-12-31T20:00:00Z', '2028-01-01T04:00'],
  ])('%s', (_name, now, then) => {
    expect(calm(now, NIGHT, 'Africa/Nairobi')).toBe(then);
  });

  test('quiet hours within one day', () => {
    expect(calm('2027-03-10T06:30:00Z', SIESTA, 'Asia/Dhaka')).toBe('2027-03-10T08:00');
    expect(calm('2027-03-10T08:00:00Z', SIESTA, 'Asia/Dhaka')).toBe('2027-03-10T08:00');
  });

  test('no quiet hours: always now', () => {
    const none = { fromMinute: 600, toMinute: 600 };
    expect(calm('2027-03-10T10:00:00Z', none, 'Etc/UTC')).toBe('2027-03-10T10:00');
  });

  test('a night in which the clock is put forward or back ends at its hour by the clock', () => {
    expect(calm('2027-03-27T23:00:00Z', NIGHT, 'Europe/London')).toBe('2027-03-28T06:00');
    expect(calm('2027-10-30T22:00:00Z', NIGHT, 'Europe/London')).toBe('2027-10-31T07:00');
  });

  test('an end that comes twice: the second time too', () => {
    const early = { fromMinute: 60, toMinute: 90 };
    // 01:15 in London, for the first and for the second time.
    expect(calm('2027-10-31T00:15:00Z', early, 'Europe/London')).toBe('2027-10-31T00:30');
    expect(calm('2027-10-31T01:15:00Z', early, 'Europe/London')).toBe('2027-10-31T01:30');
  });
});

describe('until when a text is worth something', () => {
  const visit = (day: string, hour = 9) => {
    const start = { day: parseDay(day) as Day, hour };
    return { start, end: { ...start, day: start.day + 3 } };
  };
  const notBefore = ms('2027-03-10T09:00:00Z');

  test('news: a day', () => {
    expect(iso(newsEndMs(notBefore))).toBe('2027-03-11T09:00');
  });

  test('visits: the end of the local day on which the latest starts, in the zone of the scheme', () => {
    const visits = [visit('2027-03-12', 23), null, visit('2027-03-11')];
    expect(iso(visitsEndMs(visits, notBefore, 'Africa/Nairobi'))).toBe('2027-03-12T21:00');
    expect(iso(visitsEndMs(visits, notBefore, 'America/Lima'))).toBe('2027-03-13T05:00');
  });

  test('visits of today or gone by, and those taken away: a day all the same', () => {
    for (const visits of [[visit('2027-03-10')], [visit('2026-01-01')], [null], []])
      expect(iso(visitsEndMs(visits, notBefore, 'Africa/Nairobi'))).toBe('2027-03-11T09:00');
  });
});
