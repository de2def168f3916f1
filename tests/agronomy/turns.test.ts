/** What the group gives a plot in its plan, by hand: the water turn and the shared team's day. */
import { describe, expect, test } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { stepFor } from '../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK as book } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../src/agronomy/season.ts';
import { day, report, season } from '../support/seasons.ts';

const TODAY = day('2027-03-10');
const turn = (from: string, to = from) => ({ from: day(from), to: day(to) });
const soaked = (more: Partial<Season>) => season([report('soak', '2027-03-08')], more);

describe('a water turn', () => {
  const plan = planPlot(soaked({ waterTurn: turn('2027-03-16', '2027-03-17') }), book, TODAY);
  const flood = stepFor(plan, 'flood')!;

  test('is when the plot is flooded: not before its first day, not after its last', () => {
    expect(flood.earliest).toBe(day('2027-03-16'));
    expect(flood.latest).toBe(day('2027-03-17'));
    expect(flood.due).toBe(day('2027-03-16'));
    expect(plan.breaches).toEqual([]);
  });

  test('sets the last day of the work before it, and says so', () => {
    // Ploughing takes a day, and flooding may follow on the next (rulebook: flood-after-plough).
    const plough = stepFor(plan, 'plough')!;
    expect(plough.latest).toBeLessThanOrEqual(day('2027-03-17'));
    expect([...plough.latestBecause, ...plough.earliestBecause]).toContain('water-turn');
  });

  test('that comes too soon for the work costs the turn, by so many days', () => {
    const early = planPlot(season([], { waterTurn: turn('2027-03-11') }), book, TODAY);
    const breach = early.breaches.find(({ rule }) => rule === 'water-turn');
    expect(breach?.cost.name).toBe('turn-missed');
    const due = stepFor(early, 'flood')!.due!;
    expect(breach?.byDays).toBe(due - day('2027-03-11'));
  });

  test('that has gone by no longer counts', () => {
    const past = soaked({ waterTurn: turn('2027-03-08', '2027-03-09') });
    expect(planPlot(past, book, TODAY)).toEqual(planPlot(soaked({}), book, TODAY));
  });

  test('binds nothing once the plot is flooded', () => {
    const reports = [report('plough', '2027-03-08'), report('flood', '2027-03-09')];
    const flooded = season(reports, { waterTurn: turn('2027-03-16') });
    expect(planPlot(flooded, book, TODAY)).toEqual(planPlot(season(reports), book, TODAY));
  });
});

describe('the shared team', () => {
  const visit = { ...turn('2027-03-14'), activity: 'plough' as const };

  test('ploughs on its day', () => {
    const plough = stepFor(planPlot(soaked({ teamVisit: visit }), book, TODAY), 'plough')!;
    expect([plough.earliest, plough.due, plough.latest]).toEqual([
      day('2027-03-14'),
      day('2027-03-14'),
      day('2027-03-14'),
    ]);
    expect(plough.earliestBecause).toContain('team-visit');
  });

  test('that comes before the soil is soft is missed, at its cost', () => {
    const early = season([report('soak', '2027-03-10')], {
      teamVisit: { ...turn('2027-03-11'), activity: 'plough' },
    });
    const { breaches, steps } = planPlot(early, book, TODAY);
    expect(steps.find(({ activity }) => activity === 'plough')!.due!).toBeGreaterThan(day('2027-03-10'));
    for (const { rule, cost } of breaches.filter((one) => one.rule === 'team-visit')) {
      expect(rule).toBe('team-visit');
      expect(cost.name).toBe('team-gone');
    }
  });

  test('leaves other work alone', () => {
    const plain = stepFor(planPlot(soaked({}), book, TODAY), 'puddle')!.earliest!;
    const later = stepFor(planPlot(soaked({ teamVisit: visit }), book, TODAY), 'puddle')!.earliest!;
    expect(later).toBeGreaterThanOrEqual(plain);
  });
});
