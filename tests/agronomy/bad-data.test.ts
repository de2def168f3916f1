/** Plans of seasons whose reports are wrong, odd, too many or out of this world: days stay sensible, nothing throws. */
import { beforeAll, describe, expect, it } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { type PlotPlan, stepFor } from '../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK as book } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Activity, Season } from '../../src/agronomy/season.ts';
import { isoDay } from '../../src/plan/day.ts';
import { buildServer } from '../support/real-server.ts';
import { runCli } from '../support/run-cli.ts';
import { day, report, season } from '../support/seasons.ts';

const TODAY = '2027-03-10';
const YEAR = 365;

const dueOf = (plan: PlotPlan, activity: Activity) => {
  const due = stepFor(plan, activity)?.due ?? null;
  return due === null ? null : isoDay(due);
};

/** Plans, and checks what holds of every plan: open work is due today or later, and within so many years. */
function planOn(today: string, one: Season, years = 2): PlotPlan {
  const plan = planPlot(one, book, day(today));
  for (const { activity, status, due } of plan.steps) {
    if (status === 'done') continue;
    expect(due, activity).toBeGreaterThanOrEqual(day(today));
    expect(due, activity).toBeLessThanOrEqual(day(today) + years * YEAR);
  }
  return plan;
}

describe('reports', () => {
  const ploughed = report('plough', '2027-03-01');
  const flooded = report('flood', '2027-03-02');

  it('told out of order count by their days', () => {
    const told = planOn(TODAY, season([flooded, ploughed]));
    expect(told).toEqual(planOn(TODAY, season([ploughed, flooded])));
    expect(stepFor(told, 'flood')?.on).toBe(day('2027-03-02'));
  });

  it('told twice count once', () => {
    const { lapses: _, ...twice } = planOn(TODAY, season([ploughed, flooded, ploughed, flooded]));
    const { lapses: __, ...once } = planOn(TODAY, season([ploughed, flooded]));
    expect(twice).toEqual(once);
  });

  it('that contradict each other: the newer ploughing counts, and undoes the flooding before it', () => {
    const plan = planOn(TODAY, season([ploughed, flooded, report('plough', '2027-03-08')]));
    expect(stepFor(plan, 'plough')?.on).toBe(day('2027-03-08'));
    expect(stepFor(plan, 'flood')?.status).toBe('open');
    // 0 to 3 days after ploughing on the 8th, the best a day after it, not before today.
    expect([dueOf(plan, 'flood'), stepFor(plan, 'flood')?.latest]).toEqual([TODAY, day('2027-03-11')]);
  });

  it('begun after it was finished is work once more', () => {
    const plan = planOn(TODAY, season([ploughed, report('plough', '2027-03-09', 'started')]));
    expect(stepFor(plan, 'plough')).toMatchObject({ status: 'started', on: day('2027-03-09') });
  });

  it('finished before it was begun is a span of no length, and no negative one', () => {
    const plan = planOn(
      TODAY,
      season([report('level', '2027-03-09', 'started'), report('level', '2027-03-09')]),
    );
    expect(stepFor(plan, 'level')).toMatchObject({ status: 'done', on: day('2027-03-09') });
  });

  it('of everything on one day are lapses, not a throw', () => {
    const all = (['clear', 'soak', 'plough', 'flood', 'puddle', 'level', 'sow-nursery'] as const).map((one) =>
      report(one, TODAY),
    );
    const plan = planOn(TODAY, season([...all, report('transplant', TODAY)]));
    expect(plan.lapses.map(({ rule, byDays }) => [rule, byDays])).toContainEqual(['rot', 14]);
    // Sown and planted on one day: 16 days too young.
    expect(plan.lapses.map(({ rule, byDays }) => [rule, byDays])).toContainEqual(['seedling-age', 16]);
    expect(dueOf(plan, 'gap-fill')).toBe('2027-03-15');
  });

  it('of a harvest before anything else end the season', () => {
    const plan = planOn(TODAY, season([report('harvest', '2027-03-01')]));
    expect(plan.steps.filter(({ status }) => status === 'next')).toEqual([]);
    expect(plan.fallowUntil).toBe(day('2027-03-31'));
  });

  it('of years ago hold the plan to no day in the past', () => {
    const plan = planOn(TODAY, season([report('flood', '2019-07-04')]));
    // Seed soaked today, sown on the 12th, planted at 16 days on the 28th, levelled 3 days before, puddled in 2 days till
    // 2 days before that: the flood of 2019 is held no longer than it has to be.
    expect(
      ['sow-nursery', 'transplant', 'level', 'puddle'].map((one) => dueOf(plan, one as Activity)),
    ).toEqual(['2027-03-12', '2027-03-28', '2027-03-25', '2027-03-22']);
    expect(plan.breaches).toMatchObject([
      { rule: 'rot', byDays: day('2027-03-22') - day('2019-07-04') - 21 },
      { rule: 'plough-lead' },
    ]);
  });

  it('of seedlings of years ago: they are lost, and sown afresh', () => {
    const plan = planOn(TODAY, season([report('sow-nursery', '2020-02-29')]));
    expect(plan.conflicts.map(({ rules }) => rules[0])).toContain('seedling-old');
    expect(plan.remedies.map(({ kind }) => kind)).toContain('sow-afresh');
  });

  it('of days to come are taken at their word', () => {
    const plan = planOn(TODAY, season([report('plough', '2027-03-20')]));
    expect(stepFor(plan, 'plough')).toMatchObject({ status: 'done', on: day('2027-03-20') });
    expect(stepFor(plan, 'flood')?.earliest).toBe(day('2027-03-20'));
  });

  it('of no day at all leave every open step its day', () => {
    const plan = planOn(TODAY, season([report('level', null), report('sow-nursery', null)]));
    expect(dueOf(plan, 'transplant')).not.toBeNull();
  });

  it('of work that the way does not have are passed over', () => {
    const way = { ...season().way, tillage: 'none' as const };
    expect(planOn(TODAY, season([report('puddle', '2027-03-01')], { way }))).toEqual(
      planOn(TODAY, season([], { way })),
    );
  });

  it('in a thousand are no matter', () => {
    const many = Array.from({ length: 1000 }, (_, index) =>
      report(index % 2 ? 'plough' : 'flood', isoDay(day(TODAY) - (index % 50))),
    );
    expect(stepFor(planOn(TODAY, season(many)), 'plough')?.status).toBe('done');
  });
});

describe('the calendar', () => {
  it('counts 29 February 2028', () => {
    const plan = planOn(
      '2028-02-29',
      season([report('plough', '2028-02-28'), report('flood', '2028-02-29')]),
    );
    // 29 February and 14 days: 14 March, since February 2028 has no 30th.
    expect(stepFor(plan, 'puddle')?.earliest).toBe(day('2028-03-14'));
    const common = planOn(
      '2027-02-28',
      season([report('plough', '2027-02-27'), report('flood', '2027-02-28')]),
    );
    expect(stepFor(common, 'puddle')?.earliest).toBe(day('2027-03-14'));
  });

  it('goes over new year', () => {
    const plan = planOn(
      '2027-12-25',
      season([report('plough', '2027-12-24'), report('flood', '2027-12-25')]),
    );
    expect(stepFor(plan, 'puddle')?.earliest).toBe(day('2028-01-08'));
    // Seed soaked on 25 December, sown on the 27th, planted 20 days later.
    expect(dueOf(plan, 'transplant')).toBe('2028-01-16');
  });

  it('before 1970 and far ahead is the same', () => {
    for (const today of ['1969-12-30', '1900-03-01', '2399-12-31']) {
      const plan = planOn(today, season([report('flood', today)]));
      expect((stepFor(plan, 'puddle')?.earliest ?? 0) - day(today)).toBe(14);
    }
  });

  it('with rest on every weekday but one still plans', () => {
    const restDays = { weekdays: [1, 2, 3, 4, 5, 6], days: [] };
    planOn(TODAY, season([report('flood', '2027-03-02')], { restDays }));
  });

  it('with rest on every day, and on thousands of days, takes them as they are', () => {
    planOn(TODAY, season([], { restDays: { weekdays: [1, 2, 3, 4, 5, 6, 7], days: [] } }));
    const days = Array.from({ length: 3000 }, (_, index) => day(TODAY) + index);
    planOn(TODAY, season([], { restDays: { weekdays: [], days } }), 9);
  });
});

describe('spans and sizes', () => {
  it('a canal open for a single day', () => {
    const blockWater = { from: day('2027-03-20'), to: day('2027-03-20') };
    const plan = planOn(TODAY, season([], { blockWater }));
    expect(plan.conflicts.every(({ rules }) => rules.includes('block-water'))).toBe(true);
    expect(plan.remedies.map(({ kind }) => kind)).toContain('ask-water');
  });

  it('a canal and a target turned round in time', () => {
    const turned = { from: day('2027-04-20'), to: day('2027-03-20') };
    const plan = planOn(TODAY, season([], { blockWater: turned, target: turned }));
    // The two ends of one rule clash: 31 days.
    expect(plan.conflicts).toContainEqual({ rules: ['block-water'], shortDays: 31 });
    expect(plan.breaches.filter(({ rule }) => rule === 'target')).toMatchObject([{ side: 'hi' }]);
    expect(plan.remedies.map(({ kind }) => kind)).toContain('ask-water');
  });

  it.each([1e-9, 0.0001, 0.4, 3])('%d ha', (areaHa) => {
    planOn(TODAY, season([report('plough', '2027-03-09')], { areaHa }));
  });

  it('a thousand hectares by one hoe take their hundreds of years', () => {
    const way = { ...season().way, tillage: 'hoe' as const };
    // 150 person-days a hectare: 150,000 days of ploughing, then 45,000 of puddling and 20,000 of levelling.
    const plan = planOn(TODAY, season([], { areaHa: 1000, way }), 700);
    const plough = stepFor(plan, 'plough');
    expect((plough?.doneBy ?? 0) - (plough?.due ?? 0)).toBe(149_999);
  });

  it('no water, no machine and a flood for years', () => {
    const long = {
      waterFrom: day('2030-01-01'),
      machineFrom: day('2031-01-01'),
      floodedUntil: day('2029-01-01'),
    };
    const plan = planOn(TODAY, season([report('sow-nursery', '2027-03-01')], long), 6);
    expect(stepFor(plan, 'plough')?.earliest).toBe(day('2031-01-01'));
    expect(plan.remedies.map(({ kind }) => kind)).toContain('sow-afresh');
  });

  it('lacks that ended in the past hold nothing up', () => {
    const past = {
      waterFrom: day('2026-01-01'),
      machineFrom: day('2026-01-01'),
      floodedUntil: day('2026-01-01'),
    };
    const due = ({ steps }: PlotPlan) => steps.map((step) => step.due);
    expect(due(planOn(TODAY, season([], past)))).toEqual(due(planOn(TODAY, season())));
  });

  it('a crop lost, and a nursery given up, in days to come', () => {
    const lost = { cropLostOn: day('2027-06-01'), nurseryGivenUpOn: day('2027-06-01') };
    const plan = planOn(TODAY, season([report('transplant', '2027-03-01')], lost));
    expect(stepFor(plan, 'transplant')?.status).toBe('open');
  });

  it('rains of thousands of days do not take the planner minutes', () => {
    const way = { ...season().way, water: 'rain-fed' as const };
    const rains = Array.from({ length: 10_000 }, (_, index) => ({ on: day(TODAY) - 9 * index, mm: 30 }));
    const plan = planOn(TODAY, season([report('plough', '2027-03-01')], { way, rains }));
    expect(plan.water).toMatchObject({ sumMm: 300_000, dryDays: 0, heardOn: day(TODAY) });
    const twice = planOn(TODAY, season([], { way, rains: [...rains, ...rains].reverse() }));
    expect(twice.water?.sumMm).toBe(600_000);
  }, 15_000);
});

describe('the clock of the machine', () => {
  beforeAll(buildServer, 180_000);

  // Clocks change on 14 March (New York), 28 March (Paris) and 7 November 2027; Apia is a day ahead of Midway.
  it.each(['Europe/Paris', 'America/New_York', 'Pacific/Apia', 'Pacific/Midway'])(
    'in %s shifts no day',
    async (TZ) => {
      const plot = {
        today: '2027-03-13',
        way: { tillage: 'two-wheel' },
        areaHa: 0.2,
        varietyDays: 120,
        restDays: { weekdays: ['sunday'], days: ['2027-03-29'] },
        reports: [
          { activity: 'plough', on: '2027-03-12' },
          { activity: 'flood', on: '2027-03-13' },
        ],
      };
      const ended = await runCli(['plan', '-'], { input: JSON.stringify(plot), settings: { TZ } });
      expect(ended).toMatchObject({ code: 0, stderr: '' });
      const { steps } = JSON.parse(ended.stdout) as { steps: Record<string, string>[] };
      const due = (activity: string) => steps.find((step) => step['activity'] === activity)?.['due'];
      // 14 days from 13 March, over both changes of clocks, are the 27th. Seed soaked on the 13th, sown Monday the 15th,
      // planted 20 days later on 4 April, a Sunday, so on Monday the 5th; then 127 days from sowing, 20 July.
      expect(steps.find((step) => step['activity'] === 'puddle')?.['earliest']).toBe('2027-03-30');
      expect([due('sow-nursery'), due('transplant'), due('harvest')]).toEqual([
        '2027-03-16',
        '2027-04-05',
        '2027-07-21',
      ]);
    },
  );
});
