/** How far plots are, by hand: what is next, since when it is late, and who is called first. */
import { expect, test } from 'vitest';
import { DEFAULT_RULEBOOK } from '../../../src/agronomy/rules/default-rulebook.ts';
import { ACTIVITIES } from '../../../src/agronomy/season.ts';
import { type PlotState, plotState, readiness } from '../../../src/scheme/group/readiness.ts';
import { day, season } from '../../support/seasons.ts';

const report = (activity: 'clear' | 'soak', on: string) =>
  ({ activity, stage: 'finished', on: day(on), measures: {} }) as const;

test('a plot is late since the day that its newest report made its next step due', () => {
  const done = season([report('clear', '2027-03-01'), report('soak', '2027-03-02')]);
  const soon = plotState('a', done, DEFAULT_RULEBOOK, day('2027-03-04'));
  expect(soon).toMatchObject({ last: 'soak', lateDays: 0 });
  const later = plotState('a', done, DEFAULT_RULEBOOK, day('2027-03-20'));
  expect(later).toMatchObject({ next: 'plough', lateAt: 'pregerminate' });
  expect(later.lateDays).toBeGreaterThan(0);
  const dayAfter = plotState('a', done, DEFAULT_RULEBOOK, day('2027-03-21'));
  expect(dayAfter.lateDays).toBe(later.lateDays + 1);
});

test('a plot of which nothing was heard is not called late', () => {
  expect(plotState('a', season([]), DEFAULT_RULEBOOK, day('2027-03-10'))).toMatchObject({
    lateDays: 0,
    last: null,
  });
});

const state = (plotId: string, next: PlotState['next'], late: number, plantOn: number | null): PlotState => ({
  plotId,
  areaHa: 0.5,
  last: null,
  next,
  lateAt: late > 0 ? next : null,
  lateDays: late,
  plantOn,
});

test('counts plots by their next step in the order of the season, and calls those first that will be planted last', () => {
  const found = readiness(
    [
      state('a', 'puddle', 0, 100),
      state('b', 'clear', 3, 130),
      state('c', 'clear', 9, 110),
      state('d', 'plough', 1, null),
      state('e', null, 0, 90),
    ],
    ACTIVITIES,
  );
  expect(found.byNext).toEqual([
    { next: 'clear', plots: 2, areaHa: 1 },
    { next: 'plough', plots: 1, areaHa: 0.5 },
    { next: 'puddle', plots: 1, areaHa: 0.5 },
    { next: null, plots: 1, areaHa: 0.5 },
  ]);
  expect(found.late.map(({ plotId }) => plotId)).toEqual(['d', 'b', 'c']);
});
