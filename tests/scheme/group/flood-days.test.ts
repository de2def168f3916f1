/** The days for a plot’s water, against its plan with water on one day after another. */
import { describe, expect, test } from 'vitest';
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import { stepFor } from '../../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../../src/agronomy/season.ts';
import { floodDays } from '../../../src/scheme/group/flood-days.ts';
import { day, report, season } from '../../support/seasons.ts';

const TODAY = day('2027-03-10');
const TARGET = { from: day('2027-04-01'), to: day('2027-04-15') };

const SEASONS: readonly (readonly [string, Season])[] = [
  ['soaked', season([report('soak', '2027-03-08')], { target: TARGET })],
  ['ploughed', season([report('plough', '2027-03-08')], { target: TARGET })],
  [
    'ploughed and its nursery sown',
    season([report('plough', '2027-03-08'), report('sow-nursery', '2027-03-09')], { target: TARGET }),
  ],
];

describe.each(SEASONS)('%s', (_, one) => {
  const { days } = floodDays('a', one, book, TODAY);

  test('there are days, and they come to an end', () => {
    expect(days).not.toBeNull();
    expect(days!.from).not.toBeNull();
    expect(days!.to).not.toBeNull();
    expect(days!.from!).toBeLessThanOrEqual(days!.to!);
  });

  /** Water from that day on keeps all rules; a day later than the last it does not. */
  test('with the canal opened on any of them all rules are kept, a day later not', () => {
    const opened = (on: number) => planPlot({ ...one, blockWater: { from: on, to: null } }, book, TODAY);
    for (let on = days!.from!; on <= days!.to!; on++) {
      const plan = opened(on);
      expect([...plan.breaches, ...plan.conflicts]).toEqual([]);
      expect(stepFor(plan, 'flood')!.due!).toBeGreaterThanOrEqual(on);
    }
    const late = opened(days!.to! + 1);
    expect(late.breaches.length + late.conflicts.length).toBeGreaterThan(0);
  });
});

test('a flooded plot waits for no day', () => {
  const flooded = season([report('flood', '2027-03-09')]);
  expect(floodDays('a', flooded, book, TODAY).days).toEqual({ from: null, to: null });
});
