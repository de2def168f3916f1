import { describe, expect, test } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { stepFor } from '../../src/agronomy/plot-plan.ts';
import { figure } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Activity, Report } from '../../src/agronomy/season.ts';
import { remindersFor } from '../../src/talk/reminders-for.ts';
import { day, report, season } from '../support/seasons.ts';

const TODAY = day('2027-03-10');
const EVERY = figure(DEFAULT_RULEBOOK, 'remind-overdue-every');
const LATER = figure(DEFAULT_RULEBOOK, 'remind-overdue-later');
/** The plot is soaked and its nursery sown: ploughing is next. */
const SOAKED = [report('soak', '2027-03-10'), report('sow-nursery', '2027-03-10')];
const target = { from: day('2027-03-25'), to: day('2027-04-08') };

function rowsAfter(reports: readonly Report[], today = TODAY) {
  const plan = planPlot(season(reports, { target }), DEFAULT_RULEBOOK, today);
  const rows = remindersFor(plan, 's1', DEFAULT_RULEBOOK);
  const of = (activity: Activity, why: string) =>
    rows.filter((row) => row.activity === activity && row.why === why).map(({ on }) => on);
  return { plan, rows, of, step: (activity: Activity) => stepFor(plan, activity) };
}

describe('reminders of a plan', () => {
  test('are after today, in the order of their days, none twice', () => {
    const { rows } = rowsAfter(SOAKED);
    expect(rows.every(({ on, seasonId }) => on > TODAY && seasonId === 's1')).toBe(true);
    expect(rows.map(({ on }) => on)).toEqual(rows.map(({ on }) => on).sort((a, b) => a - b));
    expect(new Set(rows.map((row) => JSON.stringify(row))).size).toBe(rows.length);
  });

  test('come the day before each step to come, unless that is today', () => {
    const { of, step } = rowsAfter(SOAKED);
    const plough = step('plough')?.due ?? 0;
    expect(plough).toBeGreaterThan(TODAY + 1);
    expect(of('plough', 'tomorrow')).toEqual([plough - 1]);
    expect(rowsAfter([report('clear', '2027-03-10')]).of('soak', 'tomorrow')).toEqual([]);
  });

  test('ask three times about the next step, then three times at longer intervals', () => {
    const { of, step } = rowsAfter(SOAKED);
    const plough = step('plough')?.due ?? 0;
    const asked = of('plough', 'overdue');
    const [first, last] = [asked[0] ?? 0, asked.at(-1) ?? 0];
    expect(step('plough')?.status).toBe('next');
    expect(first).toBe(plough + EVERY);
    expect(last).toBe(plough + 3 * EVERY + 3 * LATER);
  });

  test('ask only about the next step', () => {
    const { rows } = rowsAfter(SOAKED);
    expect(new Set(rows.filter(({ why }) => why === 'overdue').map(({ activity }) => activity))).toEqual(
      new Set(['plough']),
    );
  });

  test('tell a last day on the day before it', () => {
    const { of, step } = rowsAfter(SOAKED);
    const [due, latest] = [step('plough')?.due ?? 0, step('plough')?.latest ?? 0];
    expect(latest - due).toBeGreaterThanOrEqual(3);
    expect(of('plough', 'closing')).toEqual([latest - 1]);
  });

  test('never speak of what is done, begun only to be finished', () => {
    const { of, rows } = rowsAfter([report('plough', '2027-03-09', 'started')]);
    expect(of('plough', 'tomorrow')).toEqual([]);
    expect(of('plough', 'overdue').length).toBeGreaterThan(0);
    expect(rows.filter(({ activity }) => activity === 'clear' || activity === 'soak')).toEqual([]);
  });

  test('end with the season', () => {
    expect(rowsAfter([report('harvest', '2027-03-09')]).rows).toEqual([]);
  });
});

test('asking goes on from the day on which a step first fell due', () => {
  const plan = planPlot(season([report('clear', '2027-03-01')], { target }), DEFAULT_RULEBOOK, TODAY);
  const first = day('2027-03-09');
  const rows = remindersFor(plan, 's1', DEFAULT_RULEBOOK, {}, (activity) =>
    activity === 'soak' ? first : null,
  );
  const asked = rows.filter(({ activity, why }) => activity === 'soak' && why === 'overdue');
  expect(asked[0]?.on).toBe(first + EVERY);
});
