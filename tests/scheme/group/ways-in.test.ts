/** What brings a plot in: each way is tried again here by planning, and without it the plot stays out. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../../src/agronomy/season.ts';
import { floodDays } from '../../../src/scheme/group/flood-days.ts';
import { teamPlots } from '../../../src/scheme/group/team-plots.ts';
import { wayIn, workBeforeFlood } from '../../../src/scheme/group/ways-in.ts';
import { day, report, season } from '../../support/seasons.ts';

const TODAY = day('2027-03-10');
const TARGET = { from: day('2027-04-01'), to: day('2027-04-15') };
const isIn = (one: Season, on: number) => {
  const { days } = floodDays('a', one, book, TODAY);
  return days !== null && (days.from ?? on) <= on && on <= (days.to ?? on);
};

const last = (one: Season) => floodDays('a', one, book, TODAY).days!.to!;

describe('hands', () => {
  const slow = season([report('soak', '2027-03-08')], {
    areaHa: 0.3,
    way: { ...season([]).way, tillage: 'hoe' },
    teams: { plough: 4 },
  });
  const first = floodDays('a', slow, book, TODAY).days!.from!;

  test.each([1, 2, 3, 4])('the fewest that make the ploughing %i days quicker', (sooner) => {
    const way = wayIn(slow, book, TODAY, first - sooner);
    expect(way).toMatchObject({ kind: 'more-teams', activity: 'plough' });
    const teams = way?.kind === 'more-teams' ? way.teams : 0;
    expect(isIn(slow, first - sooner)).toBe(false);
    expect(isIn({ ...slow, teams: { plough: teams } }, first - sooner)).toBe(true);
    expect(isIn({ ...slow, teams: { plough: teams - 1 } }, first - sooner)).toBe(false);
  });

  test('no hands suffice for a day that is past', () => {
    expect(wayIn(slow, book, TODAY, TODAY - 5)).toBeNull();
  });
});

test('seedlings that would be too old by then: a fresh nursery', () => {
  const sown = season([report('soak', '2027-03-08'), report('sow-nursery', '2027-03-02')]);
  const on = last(sown) + 1;
  expect(isIn(sown, on)).toBe(false);
  expect(wayIn(sown, book, TODAY, on)).toEqual({ kind: 'sow-afresh' });
  expect(isIn({ ...sown, nurseryGivenUpOn: TODAY }, on)).toBe(true);
});

test('planting dates of the block that end too early: other dates', () => {
  const early = season([report('soak', '2027-03-08')], {
    target: { from: day('2027-03-28'), to: day('2027-04-02') },
  });
  const on = last(early) + 1;
  expect(isIn(early, on)).toBe(false);
  expect(wayIn(early, book, TODAY, on)).toEqual({ kind: 'other-dates' });
  expect(isIn({ ...early, target: { from: null, to: null } }, on)).toBe(true);
});

test('a plot that was ploughed long before: nothing brings it in', () => {
  const ploughed = season([report('plough', '2027-03-08'), report('rough-level', '2027-03-09')]);
  expect(wayIn(ploughed, book, TODAY, last(ploughed) + 5)).toBeNull();
});

test('what is to be done before the water', () => {
  expect(workBeforeFlood(season([]), book, TODAY)).toBe('clear');
  const ready = season([report('plough', '2027-03-08'), report('rough-level', '2027-03-09')]);
  expect(workBeforeFlood(ready, book, TODAY)).toBeNull();
});

describe('plots of a shared team', () => {
  const TEAM = { work: 'plough' as const, hoursPerHa: 10 };
  const plots = [
    { id: 'soaked', season: season([report('soak', '2027-03-08')], { target: TARGET }) },
    { id: 'ploughed', season: season([report('plough', '2027-03-08')], { target: TARGET }) },
    { id: 'hoed', season: season([], { way: { ...season([]).way, tillage: 'hoe' } }) },
  ];

  test('are those whose work is open and which are not worked by hand', () => {
    const found = teamPlots(plots, TEAM, book, TODAY);
    expect(found.map(({ plotId }) => plotId)).toEqual(['soaked']);
    expect(found[0]?.hours).toBeCloseTo(10 * plots[0]!.season.areaHa, 9);
    // Two days after soaking the soil can be ploughed (common practice, in the rulebook).
    expect(found[0]!.releaseOn).toBe(day('2027-03-10'));
    expect(found[0]!.lastOn).toBeGreaterThan(found[0]!.releaseOn);
  });

  test('a visit that was told before does not bind the new order', () => {
    const [soaked] = plots;
    const told = {
      ...soaked!.season,
      teamVisit: { from: day('2027-03-25'), to: day('2027-03-25'), activity: 'plough' as const },
    };
    expect(teamPlots([{ id: 'soaked', season: told }], TEAM, book, TODAY)).toEqual(
      teamPlots([soaked!], TEAM, book, TODAY),
    );
  });
});
