/** Plots whose rules cannot all be kept, computed by hand: what clashes, by how many days, and the way out with its day. */
import { describe, expect, it } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { planJson, readPlotFile } from '../../src/agronomy/plot-file.ts';
import { DEFAULT_RULEBOOK as book } from '../../src/agronomy/rules/default-rulebook.ts';

/*
 * 0.2 ha with one two-wheel tractor and ten planters: ploughing 0.2, puddling 0.8, levelling 0.4 and planting 0.7 days,
 * each a day. A variety of 120 days: seedlings are best at 20 days, 16 to 30 will do, at 40 they are lost.
 */
const PLOT = { today: '2027-03-10', way: { tillage: 'two-wheel' }, areaHa: 0.2, varietyDays: 120 };

const done = (activity: string, on: string, measures?: object) => ({
  activity,
  on,
  ...(measures && { measures }),
});

function planOf(change: object) {
  const plot = readPlotFile({ ...PLOT, ...change });
  if (!plot.ok) throw new Error(plot.mistakes.join('; '));
  const plan = planJson(planPlot(plot.season, book, plot.today));
  const step = (activity: string) => plan.steps.find((one) => one.activity === activity);
  return { ...plan, step };
}

describe('the nursery and the field do not meet', () => {
  // Ploughed 9 March: planted 17 days later, on 26 March, at the soonest. Sown 5 February, lost on 17 March: 9 days short.
  // Best age at most 30 days, on 7 March: 19 days over. Afresh: seed soaked today, sown on the 12th, planted 20 days after.
  it('seedlings will be too old: sow afresh', () => {
    const plan = planOf({ reports: [done('sow-nursery', '2027-02-05'), done('plough', '2027-03-09')] });
    expect(plan.conflicts).toEqual([
      {
        rules: ['seedling-old', 'report:sow-nursery', 'report:plough', 'plough-lead', 'work:transplant'],
        shortDays: 9,
        cost: 'seedlings this old may give half the crop',
      },
    ]);
    expect(plan.breaches).toEqual([
      { rule: 'seedling-age', byDays: 19, cost: 'old seedlings tiller poorly' },
    ]);
    expect(plan.remedies).toEqual([
      {
        kind: 'sow-afresh',
        rule: 'seedling-old',
        on: '2027-03-12',
        cost: 'seed and nursery work once more',
        plantOn: '2027-04-01',
      },
    ]);
  });

  // Sown 22 February: 30 days on 24 March, planted on the 26th, 2 days over; 32 days are a full week past 20: one more.
  it('seedlings will be a little too old: sow afresh, or plant them thicker', () => {
    const plan = planOf({ reports: [done('sow-nursery', '2027-02-22'), done('plough', '2027-03-09')] });
    expect(plan.conflicts).toEqual([]);
    expect(plan.breaches).toMatchObject([{ rule: 'seedling-age', byDays: 2 }]);
    expect(plan.step('transplant')).toMatchObject({
      due: '2027-03-26',
      latest: '2027-03-26',
      because: ['plough-lead', 'seedling-age'],
    });
    expect(plan.remedies).toMatchObject([
      { kind: 'sow-afresh', on: '2027-03-12', plantOn: '2027-04-01' },
      { kind: 'plant-older', on: '2027-03-26', ageDays: 32, extraSeedlings: 1, plantOn: '2027-03-26' },
    ]);
  });

  // Soaked on 5 March, to be sown by the 8th: 2 days ago. Flooded on the 2nd: puddled by the 23rd, levelled by the 25th,
  // planted by the 28th; seedlings of 16 days by then were sown by the 12th: seed soaked today.
  it('soaked seed has waited too long: soak again', () => {
    const reports = [done('flood', '2027-03-02'), done('pregerminate', '2027-03-05')];
    const plan = planOf({ reports });
    expect(plan.conflicts).toEqual([
      {
        rules: ['pregerminate', 'report:pregerminate', 'today'],
        shortDays: 2,
        cost: 'the soaked seed is lost',
      },
    ]);
    expect(plan.remedies).toMatchObject([
      { kind: 'soak-again', on: '2027-03-10', plantOn: '2027-03-28', cost: 'the soaked seed is lost' },
    ]);
  });
});

describe('the canal', () => {
  // Flooded 10 March, puddled 14 days later, on the 24th; the canal shuts on the 20th: 4 days short. With water, puddling
  // waits for the seedlings: seed soaked today, sown on the 12th, planted 1 April, puddled and levelled the day before.
  it('shuts too soon: ask for water', () => {
    const reports = [done('plough', '2027-03-09'), done('flood', '2027-03-10')];
    const plan = planOf({ blockWater: { from: '2027-03-01', to: '2027-03-20' }, reports });
    expect(plan.conflicts).toEqual([
      {
        rules: ['block-water', 'report:flood', 'rot'],
        shortDays: 4,
        cost: 'the canal is shut when the plot needs water',
      },
    ]);
    expect(plan.breaches).toEqual([]);
    expect(plan.remedies).toEqual([
      {
        kind: 'ask-water',
        rule: 'block-water',
        on: '2027-03-31',
        cost: 'others may have to wait for their water',
        plantOn: '2027-04-01',
      },
    ]);
  });

  // Ploughed 9 March, to be flooded by the 12th; the canal opens on the 20th: 8 days late. With water, flooded today.
  it('opens late after ploughing: ask for water', () => {
    const plan = planOf({
      blockWater: { from: '2027-03-20', to: null },
      reports: [done('plough', '2027-03-09')],
    });
    expect(plan.conflicts).toEqual([]);
    expect(plan.breaches).toEqual([{ rule: 'flood-after-plough', byDays: 8, cost: 'weeds return' }]);
    expect(plan.step('flood')).toMatchObject({
      due: '2027-03-20',
      because: ['block-water', 'flood-after-plough'],
    });
    expect(plan.remedies).toMatchObject([
      { kind: 'ask-water', rule: 'flood-after-plough', on: '2027-03-10', plantOn: '2027-04-01' },
    ]);
  });

  // Ploughed 1 March, to be flooded by the 4th, open canal: today is 6 days late, and there is nothing better than today.
  it('a late flood: flood at once', () => {
    const plan = planOf({ reports: [done('plough', '2027-03-01')] });
    expect(plan.breaches).toEqual([{ rule: 'flood-after-plough', byDays: 6, cost: 'weeds return' }]);
    expect(plan.remedies).toMatchObject([
      {
        kind: 'go-on',
        rule: 'flood-after-plough',
        activity: 'flood',
        on: '2027-03-10',
        cost: 'weeds return',
      },
    ]);
  });
});

describe('no tractor until 15 April', () => {
  // Ploughed 15 April, planted 17 days later on 2 May; sown 8 March, lost on 17 April: 15 days short. Afresh: planted 21
  // days after ploughing, 6 May, sown 20 days before. Unploughed: cleared and flooded today, planted 30 days later.
  it('seedlings would be lost: sow afresh, or do without ploughing', () => {
    const plan = planOf({ machineFrom: '2027-04-15', reports: [done('sow-nursery', '2027-03-08')] });
    expect(plan.conflicts).toMatchObject([
      {
        rules: [
          'seedling-old',
          'report:sow-nursery',
          'no-machine',
          'work:plough',
          'plough-lead',
          'work:transplant',
        ],
        shortDays: 15,
      },
    ]);
    expect(plan.remedies).toMatchObject([
      { kind: 'sow-afresh', on: '2027-04-16', plantOn: '2027-05-06' },
      {
        kind: 'change-way',
        rule: 'no-machine',
        on: '2027-03-10',
        plantOn: '2027-04-09',
        cost: 'the soil stays unturned and more weeds come',
      },
    ]);
  });

  // Planted 2 May at the soonest, the group by 20 April: 12 days. Unploughed: cleared today, flooded tomorrow, 10 April.
  it('the group would be kept waiting: do without ploughing', () => {
    const plan = planOf({ machineFrom: '2027-04-15', target: { from: '2027-04-01', to: '2027-04-20' } });
    expect(plan.conflicts).toEqual([]);
    expect(plan.breaches).toMatchObject([{ rule: 'target', byDays: 12 }]);
    expect(plan.remedies).toMatchObject([{ kind: 'change-way', on: '2027-03-11', plantOn: '2027-04-10' }]);
  });
});

describe('out of step with the group', () => {
  // One pair of animals on 1 ha: ploughing 12 days, 10 to 21 March; flooded the 21st, puddled 4 to 12 April (9 days),
  // levelled 12 to 15 (4 days), planted on the 16th at the soonest: 4 days late. Two pairs plough in 6 days, 10 to 15;
  // at the best gaps flooded on the 16th, puddled 30 March to 7 April, levelled till the 10th, planted on the 11th. As
  // ploughing is best 21 days before planting, it ends no sooner than it has to, on the 16th: 11 to 16 March.
  it('because the work is slow: more teams', () => {
    const slow = {
      way: { tillage: 'animals' },
      areaHa: 1,
      target: { to: '2027-04-12' },
      reports: [done('soak', '2027-03-07')],
    };
    const plan = planOf(slow);
    expect(plan.breaches).toEqual([
      { rule: 'target', byDays: 4, cost: 'the plot is out of step with its neighbours' },
    ]);
    expect(plan.step('transplant')).toMatchObject({ due: '2027-04-16' });
    expect(plan.remedies).toEqual([
      {
        kind: 'more-teams',
        rule: 'target',
        activity: 'plough',
        teams: 2,
        on: '2027-03-11',
        cost: 'help must be found and paid',
        plantOn: '2027-04-11',
      },
    ]);
    expect(planOf({ ...slow, teams: { plough: 2 } }).breaches).toEqual([]);
  });

  // Seed soaked today, sown on the 12th, planted at 16 days on the 28th at the soonest: 4 days after the group.
  it('whatever is done: tell the group', () => {
    const reports = [done('plough', '2027-03-09'), done('flood', '2027-03-10')];
    const plan = planOf({ target: { to: '2027-03-24' }, reports });
    expect(plan.breaches).toMatchObject([{ rule: 'target', byDays: 4 }]);
    expect(plan.step('transplant')).toMatchObject({
      due: '2027-03-28',
      because: ['seedling-age', 'pregerminate', 'target'],
    });
    expect(plan.remedies).toEqual([
      {
        kind: 'tell-group',
        rule: 'target',
        on: '2027-03-28',
        cost: 'the plot is out of step with its neighbours',
        plantOn: '2027-03-28',
      },
    ]);
  });
});

describe('work that is done again', () => {
  // Ploughed 1 February, to be planted by 8 March; sown 1 March, 16 days on the 17th: 9 days over. Held under water since
  // 2 February, to be puddled by the 23rd; planted on the 17th it is puddled 5 days before, on 12 March: 17 days over.
  // Ploughed again today, planted 17 days later, on the 27th, when the seedlings have 26 days.
  it('weeds are back after five weeks: plough again', () => {
    const reports = [
      done('plough', '2027-02-01'),
      done('flood', '2027-02-02'),
      done('sow-nursery', '2027-03-01'),
    ];
    const plan = planOf({ reports });
    expect(plan.breaches).toEqual([
      { rule: 'rot', byDays: 17, cost: 'water is held longer than it needs to be' },
      { rule: 'plough-lead', byDays: 9, cost: 'weeds return and the plot needs tilling again' },
    ]);
    expect(plan.step('transplant')).toMatchObject({ due: '2027-03-17' });
    expect(plan.remedies).toMatchObject([
      { kind: 'go-on', rule: 'rot', activity: 'puddle', on: '2027-03-12' },
      {
        kind: 'do-again',
        rule: 'plough-lead',
        activity: 'plough',
        on: '2027-03-10',
        cost: 'the work is done once more',
        plantOn: '2027-03-27',
      },
    ]);
  });

  // Puddled 6 March, to be levelled by the 8th: 2 days over. Sown 20 February, 20 days on 12 March: puddled again and
  // levelled the day before.
  it('the mud is stiff: puddle again', () => {
    const reports = [
      done('flood', '2027-02-20'),
      done('sow-nursery', '2027-02-20'),
      done('puddle', '2027-03-06'),
    ];
    const plan = planOf({ reports });
    expect(plan.breaches).toEqual([
      { rule: 'puddle-level', byDays: 2, cost: 'the mud is stiff and hard to move' },
    ]);
    expect(plan.remedies).toMatchObject([
      { kind: 'do-again', rule: 'puddle-level', activity: 'puddle', on: '2027-03-11', plantOn: '2027-03-12' },
    ]);
  });

  // Puddled and levelled 9 March, to be planted by the 12th; sown 26 February, 16 days on 14 March: 2 days over. Levelled
  // again on the 11th, while the mud of the 9th still moves, 3 days before planting.
  it('a crust would come, the mud still moves: level again', () => {
    const reports = [
      done('sow-nursery', '2027-02-26'),
      done('puddle', '2027-03-09'),
      done('level', '2027-03-09'),
    ];
    const plan = planOf({ reports });
    expect(plan.breaches).toEqual([{ rule: 'settle', byDays: 2, cost: 'weeds and a crust begin' }]);
    expect(plan.step('transplant')).toMatchObject({ due: '2027-03-14', because: ['seedling-age', 'settle'] });
    expect(plan.remedies).toMatchObject([
      { kind: 'do-again', rule: 'settle', activity: 'level', on: '2027-03-11', plantOn: '2027-03-14' },
    ]);
  });

  // Levelled 3 March, to be planted by the 6th: today is 4 days over. The mud of the 3rd moves no more: puddled again.
  it('a crust has come, the mud is stiff: puddle again', () => {
    const reports = [
      done('sow-nursery', '2027-02-19'),
      done('puddle', '2027-03-03'),
      done('level', '2027-03-03'),
    ];
    const plan = planOf({ reports });
    expect(plan.breaches).toMatchObject([{ rule: 'settle', byDays: 4 }]);
    expect(plan.remedies).toMatchObject([
      { kind: 'do-again', rule: 'settle', activity: 'puddle', on: '2027-03-10', plantOn: '2027-03-11' },
    ]);
  });

  // Spots from 2 to 30 cm: 28 cm of water over the lowest. Seedlings of 20 February have 28 cm on 20 March; levelled
  // today, to be planted by the 13th: 7 days over, and 8 days after the 12th, when they are best. Puddled yesterday, it
  // is levelled again today and planted on the 12th.
  it('the plot is uneven: level again', () => {
    const reports = [
      done('sow-nursery', '2027-02-20'),
      done('puddle', '2027-03-09'),
      done('level', '2027-03-10', { spotsCm: [2, 30, 12, 9, 20] }),
    ];
    const plan = planOf({ reports });
    expect(plan.breaches).toMatchObject([{ rule: 'settle', byDays: 7 }]);
    expect(plan.step('transplant')).toMatchObject({ due: '2027-03-20', because: ['uneven', 'settle'] });
    expect(plan.remedies).toMatchObject([
      { kind: 'do-again', activity: 'level', on: '2027-03-10', plantOn: '2027-03-12' },
    ]);
    expect(plan).toMatchObject({
      unevenness: { rangeCm: 28, daysLost: 8, again: { on: '2027-03-10', plantOn: '2027-03-12' } },
    });
  });
});

describe('rain that has not come', () => {
  // 90 mm of 200: 110 mm are missing. The usual rain brings 3 mm a day in March (90 / 30 is April's, 93 / 31 March's):
  // 21 days to the 31st bring 63 mm, April's 47 mm more take 16 days. Puddled and levelled 16 April, planted the 17th.
  // Sown 20 February, lost 1 April: 16 days short. Afresh: sown 20 days before planting, on 28 March.
  it('seedlings would be lost: sow afresh', () => {
    const plan = planOf({
      way: { tillage: 'two-wheel', water: 'rain-fed' },
      rains: [{ on: '2027-03-01', mm: 90 }],
      climate: { rainMm: [93, 84, 93, 90, 93, 90, 93, 93, 90, 93, 90, 93], source: 'invented' },
      reports: [done('sow-nursery', '2027-02-20'), done('plough', '2027-03-04'), done('flood', '2027-03-05')],
    });
    expect(plan.conflicts).toMatchObject([
      { rules: expect.arrayContaining(['seedling-old', 'report:sow-nursery', 'rain-puddle']), shortDays: 16 },
    ]);
    expect(plan.step('puddle')).toMatchObject({
      due: '2027-04-16',
      waitsFor: { sumMm: 90, needMm: 200, state: 'expected' },
    });
    expect(plan.remedies).toMatchObject([
      { kind: 'sow-afresh', rule: 'seedling-old', on: '2027-03-28', plantOn: '2027-04-17' },
    ]);
  });

  // Soaked seed of 6 March was to be sown by the 9th: a day ago. New seed waits for 200 mm; nobody knows when they come.
  it('soaked seed is lost: soak again, not before tomorrow', () => {
    const plan = planOf({
      way: { tillage: 'two-wheel', water: 'rain-fed' },
      rains: [{ on: '2027-03-05', mm: 40 }],
      reports: [done('soak', '2027-03-05'), done('pregerminate', '2027-03-06')],
    });
    expect(plan.conflicts).toMatchObject([{ rules: expect.arrayContaining(['pregerminate']), shortDays: 1 }]);
    expect(plan.remedies).toMatchObject([{ kind: 'soak-again', on: '2027-03-11' }]);
    expect(plan.step('plough')).toMatchObject({ waitsFor: { sumMm: 40, needMm: 75, state: 'unknown' } });
  });
});
