/** Plans of one plot, checked against published patterns; the rules themselves are checked in `properties/`. */
import { describe, expect, it } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { bindingRules, planJson, readPlotFile } from '../../src/agronomy/plot-file.ts';
import { nextStep, type PlotPlan, stepFor } from '../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK as book } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Activity, Season } from '../../src/agronomy/season.ts';
import { isoDay } from '../../src/plan/day.ts';
import { day, report, season } from '../support/seasons.ts';

const dueOf = (plan: PlotPlan, activity: Activity) => {
  const due = stepFor(plan, activity)?.due ?? null;
  return due === null ? null : isoDay(due);
};
const windowOf = (plan: PlotPlan, activity: Activity) => {
  const step = stepFor(plan, activity);
  return [step?.earliest, step?.latest].map((on) => (on == null ? null : isoDay(on)));
};

describe('the main way', () => {
  // PhilRice Field Operations Manual 2007: plough on day X, plant from X + 21.
  it('plants 21 days after ploughing', () => {
    const plan = planPlot(season([report('plough', '2027-03-01')]), book, day('2027-03-01'));
    expect(dueOf(plan, 'transplant')).toBe('2027-03-23');
    const sown = planPlot(
      season([report('plough', '2027-03-01'), report('sow-nursery', '2027-03-02')]),
      book,
      day('2027-03-02'),
    );
    expect(dueOf(sown, 'transplant')).toBe('2027-03-22');
  });

  // Common practice: flood at once after ploughing; rot 14 days at least (Dept of Agriculture Sri Lanka).
  it('floods the day after and puddles after two weeks', () => {
    const plan = planPlot(season([report('plough', '2027-03-01')]), book, day('2027-03-01'));
    expect(dueOf(plan, 'flood')).toBe('2027-03-02');
    expect(windowOf(plan, 'flood')).toEqual(['2027-03-01', '2027-03-04']);
    const flooded = planPlot(
      season([report('plough', '2027-03-01'), report('flood', '2027-03-02')]),
      book,
      day('2027-03-02'),
    );
    expect(stepFor(flooded, 'puddle')?.earliest).toBe(day('2027-03-16'));
  });

  it('starts with clearing, and one step is next', () => {
    const plan = planPlot(season(), book, day('2027-03-01'));
    expect(nextStep(plan)?.activity).toBe('clear');
    expect(plan.steps.filter(({ status }) => status === 'next')).toHaveLength(1);
  });

  it('times the nursery from the field', () => {
    const plan = planPlot(season([report('flood', '2027-03-02')]), book, day('2027-03-02'));
    const [sow, plant] = [stepFor(plan, 'sow-nursery')?.due ?? 0, stepFor(plan, 'transplant')?.due ?? 0];
    expect(plant - sow).toBe(20);
    expect(sow - (stepFor(plan, 'pregerminate')?.due ?? 0)).toBe(2);
  });

  it('waits for the group', () => {
    const target = { from: day('2027-05-01'), to: day('2027-05-10') };
    const plan = planPlot(season([], { target }), book, day('2027-03-01'));
    expect(plan.breaches).toEqual([]);
    expect(stepFor(plan, 'transplant')?.earliest).toBe(day('2027-05-01'));
    // 3 days to flooding, 21 of rotting, puddling of 2 days, 2 to levelling, 3 of settling: 30 at most.
    expect(stepFor(plan, 'plough')?.earliest).toBe(day('2027-05-01') - 30);
    expect(dueOf(plan, 'plough')).toBe('2027-04-10');
  });

  it('soaks no sooner than the canal has water', () => {
    const plan = planPlot(
      season([], { blockWater: { from: day('2027-03-20'), to: null } }),
      book,
      day('2027-03-01'),
    );
    expect(dueOf(plan, 'soak')).toBe('2027-03-20');
    expect(bindingRules(stepFor(plan, 'soak') as NonNullable<ReturnType<typeof stepFor>>)).toContain(
      'block-water',
    );
  });
});

describe('what a grower lacks till a day', () => {
  it('no water: soaking and flooding wait for it, and what hangs on them', () => {
    const plan = planPlot(season([], { waterFrom: day('2027-03-20') }), book, day('2027-03-10'));
    expect(windowOf(plan, 'soak')[0]).toBe('2027-03-20');
    expect(bindingRules(stepFor(plan, 'soak') as NonNullable<ReturnType<typeof stepFor>>)).toContain(
      'no-water',
    );
    const ploughed = planPlot(
      season([report('plough', '2027-03-09')], { waterFrom: day('2027-03-20') }),
      book,
      day('2027-03-10'),
    );
    expect(planJson(ploughed).breaches).toMatchObject([{ rule: 'flood-after-plough', byDays: 8 }]);
  });

  it('nothing to plough with: the seedlings get too old, and a fresh nursery has its day', () => {
    const plan = planPlot(
      season([report('sow-nursery', '2027-03-10')], { machineFrom: day('2027-04-15') }),
      book,
      day('2027-03-10'),
    );
    expect(windowOf(plan, 'plough')[0]).toBe('2027-04-15');
    // Ploughed on 15 April, planted 17 days later at the soonest and 21 at best; sown 20 days before that.
    // Without ploughing: cleared and flooded today, held 30 days; the seedlings are then 30 days old.
    expect(plan.remedies).toMatchObject([
      { kind: 'sow-afresh', rule: 'seedling-old', on: day('2027-04-16') },
      { kind: 'change-way', on: day('2027-03-10'), plantOn: day('2027-04-09') },
    ]);
  });
});

describe('other ways', () => {
  const way = (change: Partial<Season['way']>) => ({ way: { ...season().way, ...change } });

  // Common practice: clear, flood, hold 30 to 60 days, plant; no ploughing, puddling or levelling.
  it('without ploughing, water is held for 30 to 60 days', () => {
    const plan = planPlot(
      season([report('flood', '2027-03-10')], way({ tillage: 'none' })),
      book,
      day('2027-03-10'),
    );
    expect(windowOf(plan, 'transplant')).toEqual(['2027-04-09', '2027-05-09']);
    expect(dueOf(plan, 'transplant')).toBe('2027-04-09');
    expect(dueOf(plan, 'sow-nursery')).toBe('2027-03-20');
    const steps = plan.steps.map(({ activity }) => activity);
    for (const none of ['soak', 'plough', 'rough-level', 'puddle', 'level'] as const)
      expect(steps).not.toContain(none);
  });

  // By hand: ploughed 9 March, sown 21 days later on 30 March, levelled the day before; sprouting takes 2 days; harvest
  // after the variety's own 110 days, on 18 July; drained 10 days before it; second feed 65 + 6 days before it, 8 May.
  it('sown in the field, a crop has no nursery and loses no days to transplanting', () => {
    const reports = [report('plough', '2027-03-09'), report('flood', '2027-03-10')];
    const change = { ...way({ establishment: 'wet-seed' }), varietyDays: 110, areaHa: 0.2 };
    const plan = planPlot(season(reports, change), book, day('2027-03-10'));
    const due = (['puddle', 'level', 'pregerminate', 'sow-direct', 'drain', 'harvest'] as const).map((one) =>
      dueOf(plan, one),
    );
    expect(due).toEqual(['2027-03-29', '2027-03-29', '2027-03-28', '2027-03-30', '2027-07-08', '2027-07-18']);
    expect(isoDay(stepFor(plan, 'topdress', 2)?.due ?? 0)).toBe('2027-05-08');
    const steps = plan.steps.map(({ activity }) => activity);
    for (const none of ['sow-nursery', 'transplant', 'gap-fill'] as const) expect(steps).not.toContain(none);
  });
});

describe('what was reported', () => {
  it('implies earlier work, on a day not known', () => {
    const plan = planPlot(
      season([report('sow-nursery', '2027-03-04'), report('puddle', '2027-03-20')]),
      book,
      day('2027-03-20'),
    );
    for (const activity of ['clear', 'soak', 'plough', 'rough-level', 'flood'] as const) {
      expect(stepFor(plan, activity)).toMatchObject({ status: 'done', on: null, implied: true });
    }
    expect(nextStep(plan)?.activity).toBe('level');
    expect(plan.lapses).toEqual([]);
  });

  it('records a broken rule as a lapse with its cost', () => {
    const plan = planPlot(
      season([report('flood', '2027-03-01'), report('puddle', '2027-03-07')], { areaHa: 0.2 }),
      book,
      day('2027-03-07'),
    );
    expect(planJson(plan).lapses).toEqual([
      { rule: 'rot', side: 'lo', byDays: 8, cost: 'rotting residue takes nitrogen from the seedlings' },
    ]);
  });

  // Common practice and PalayCheck: 10-15 cm.
  it.each([
    [8, 'lo', -2],
    [22, 'hi', 7],
  ])('ploughed %i cm deep is a lapse', (depthCm, side, byCm) => {
    const plan = planPlot(
      season([report('plough', '2027-03-01', 'finished', depthCm)]),
      book,
      day('2027-03-01'),
    );
    expect(plan.lapses).toMatchObject([{ rule: 'plough-depth', side, byCm }]);
  });

  it.each([10, 12, 15])('ploughed %i cm deep is not', (depthCm) => {
    expect(
      planPlot(season([report('plough', '2027-03-01', 'finished', depthCm)]), book, day('2027-03-01')).lapses,
    ).toEqual([]);
  });

  it('ploughing again undoes the flooding before it', () => {
    const reports = [
      report('plough', '2027-03-01'),
      report('flood', '2027-03-02'),
      report('plough', '2027-03-20'),
    ];
    const plan = planPlot(season(reports), book, day('2027-03-20'));
    expect(stepFor(plan, 'flood')?.status).toBe('open');
    expect(stepFor(plan, 'plough')?.on).toBe(day('2027-03-20'));
  });

  it('work under way ends today at the earliest', () => {
    const reports = [report('plough', '2027-03-01', 'started')];
    const plan = planPlot(
      season(reports, { way: { ...season().way, tillage: 'animals' } }),
      book,
      day('2027-03-02'),
    );
    expect(stepFor(plan, 'plough')).toMatchObject({
      status: 'started',
      earliest: day('2027-03-05'),
      due: day('2027-03-05'),
    });
  });
});

describe('what cannot be kept', () => {
  it('a late flood is a breach by exactly its days', () => {
    const plan = planPlot(season([report('plough', '2027-03-01')]), book, day('2027-03-10'));
    expect(planJson(plan).breaches).toEqual([
      { rule: 'flood-after-plough', byDays: 6, cost: 'weeds return' },
    ]);
  });

  it('a late plougher whose seedlings get too old is offered a fresh nursery, and the field is not hurried', () => {
    const plan = planPlot(season([report('sow-nursery', '2027-02-05')]), book, day('2027-03-10'));
    expect(plan.conflicts.some(({ rules }) => rules.includes('seedling-old'))).toBe(true);
    expect(plan.remedies.map(({ kind }) => kind)).toEqual(['sow-afresh']);
    expect(plan.breaches.map(({ rule }) => rule)).not.toContain('rot');
    const afresh = plan.remedies[0]?.on ?? 0;
    const replanned = planPlot(season([report('sow-nursery', isoDay(afresh))]), book, afresh);
    expect([replanned.conflicts, replanned.breaches]).toEqual([[], []]);
  });

  it('seedlings a little too old may be planted thicker', () => {
    const plan = planPlot(season([report('sow-nursery', '2027-02-25')]), book, day('2027-03-10'));
    expect(plan.remedies.map(({ kind }) => kind)).toEqual(['sow-afresh', 'plant-older']);
    expect(plan.remedies[1]).toMatchObject({ on: day('2027-03-29'), ageDays: 32, extraSeedlings: 1 });
  });

  it('soaked seed that was not sown is soaked again', () => {
    const plan = planPlot(
      season([report('flood', '2027-03-01'), report('pregerminate', '2027-03-02')]),
      book,
      day('2027-03-08'),
    );
    expect(plan.conflicts).toEqual([{ rules: expect.arrayContaining(['pregerminate']), shortDays: 3 }]);
    expect(plan.remedies.map(({ kind }) => kind)).toEqual(['soak-again']);
  });

  it('a canal that shuts too soon blocks the plan', () => {
    const blockWater = { from: day('2027-03-01'), to: day('2027-03-12') };
    const plan = planPlot(season([], { blockWater }), book, day('2027-03-10'));
    expect(plan.conflicts.some(({ rules }) => rules.includes('block-water'))).toBe(true);
    expect(plan.remedies.map(({ kind }) => kind)).toEqual(['ask-water']);
  });
});

describe('a plot as JSON', () => {
  it('lists every mistake with its place', () => {
    const read = readPlotFile({
      today: '2027-04-31',
      way: { tillage: 'elephants' },
      areaHa: -1,
      varietyDays: 120,
      reports: [{ activity: 'dance' }],
    });
    expect(read.ok).toBe(false);
    const mistakes = read.ok ? [] : read.mistakes;
    expect(mistakes.map((mistake) => mistake.split(':')[0])).toEqual([
      'today',
      'way.tillage',
      'areaHa',
      'reports.0.activity',
    ]);
  });

  it('prints null for no bound and the days of done steps', () => {
    const json = planJson(planPlot(season([report('plough', '2027-03-01')]), book, day('2027-03-02')));
    expect(json.steps.find(({ activity }) => activity === 'plough')).toEqual({
      activity: 'plough',
      status: 'done',
      on: '2027-03-01',
    });
    expect(json.steps.find(({ activity }) => activity === 'clear')).toEqual({
      activity: 'clear',
      status: 'done',
      on: null,
    });
  });
});
