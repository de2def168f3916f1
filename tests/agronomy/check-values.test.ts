/**
 * Check values of the trade against the plan and its sums, each with its source beside it. Figures that rulebook.test.ts
 * and plan-plot.test.ts hold are not said again; whole seasons are in seasons/.
 */
import { describe, expect, it } from 'vitest';
import { bundBalance } from '../../src/agronomy/bund-balance.ts';
import { cropDays, grownIn } from '../../src/agronomy/crop-days.ts';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { type PlotPlan, stepFor } from '../../src/agronomy/plot-plan.ts';
import { countedRain, rainState, rainSum } from '../../src/agronomy/rain.ts';
import { DEFAULT_RULEBOOK as book } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Activity, Rain, Season } from '../../src/agronomy/season.ts';
import { standingWater } from '../../src/agronomy/standing-water.ts';
import { boundDays } from '../../src/agronomy/variety.ts';
import { workDays } from '../../src/agronomy/work-days.ts';
import { hearDetails } from '../../src/hear/hear-details.ts';
import { type Day, isoDay } from '../../src/plan/day.ts';
import { ENGLISH } from '../hear/languages.ts';
import { day, report, season } from '../support/seasons.ts';

const way = (change: Partial<Season['way']>) => ({ ...season().way, ...change });
const dueOf = (plan: PlotPlan, activity: Activity, round?: number): string | null => {
  const due = stepFor(plan, activity, round)?.due ?? null;
  return due === null ? null : isoDay(due);
};

describe('growth phases', () => {
  // IRRI, three growth phases: IR64 45 days to panicle initiation, 35 to flowering, 30 to maturity, 110; IR8 65 + 35 + 30.
  it.each([
    ['IR64', 110, 45],
    ['IR8', 130, 65],
  ])('%s, %i days, has its panicle initiation after %i', (_, varietyDays, panicle) => {
    const days = (of: 'panicle-direct' | 'variety' | 'panicle-to-harvest') =>
      boundDays(book, { of, plus: 0 }, varietyDays);
    expect(days('panicle-direct')).toBe(panicle);
    expect(days('variety')).toBe(varietyDays);
    expect(days('panicle-to-harvest')).toBe(35 + 30);
  });

  // Masagana 99 (PIDS DPS 05-14): fed 5 to 7 days before panicle initiation; Yoshida Table 1.6: 7 days lost to transplanting.
  it('IR64, transplanted, is a week later: panicle initiation after 52 days, harvest after 117', () => {
    const plan = planPlot(
      season([report('sow-nursery', '2027-03-01')], { varietyDays: 110 }),
      book,
      day('2027-03-01'),
    );
    const sown = day('2027-03-01');
    expect(stepFor(plan, 'topdress', 2)).toMatchObject({ earliest: sown + 45, latest: sown + 47 });
    expect(stepFor(plan, 'harvest')?.due).toBe(sown + 117);
  });
});

describe('leaves by warmth', () => {
  const always = (celsius: number) => Array<number>(12).fill(celsius);
  // Yoshida 1981 p. 21: 100 degree-days a leaf, so four leaves take 20 days at 20 C and 16 at 25 C.
  it.each([
    [20, 20],
    [25, 16],
  ])('at %i C four leaves take %i days', (celsius, days) => {
    expect(grownIn(book, 16, day('2027-03-01'), always(celsius))).toBe(days);
  });

  // By hand: sown 22 March, ten days of March at 20 C bring 200 of 400 degree-days, eight of April at 25 C the rest.
  it('counts each day by its own month', () => {
    const months = always(25).map((celsius, month) => (month === 2 ? 20 : celsius));
    expect(grownIn(book, 16, day('2027-03-22'), months)).toBe(18);
  });

  // At 20 C the ages of 16, 20 and 25 days (IIRR, at 25 C: judgement) come to 20, 25 and 31.25, so 32; 40 days to 50.
  it.each([
    [110, 20],
    [120, 25],
    [135, 32],
  ])('a variety of %i days is planted at %i days where it has 20 C', (varietyDays, age) => {
    const cool = season([], {
      varietyDays,
      climate: { meanTemperatureC: always(20), source: 'made up for this test' },
    });
    expect(cropDays(book, cool, day('2027-03-01'))).toMatchObject({ seedlingAge: age, seedlingLimit: 50 });
  });
});

describe('seedlings', () => {
  // IIRR, Low-external Input Rice Production: 16, 20 and 25 days; sown on 6 March, the field being ready sooner.
  it.each([
    [115, '2027-03-22'],
    [116, '2027-03-26'],
    [125, '2027-03-26'],
    [126, '2027-03-31'],
  ])('a variety of %i days sown on 6 March is planted on %s', (varietyDays, on) => {
    const reports = [
      report('plough', '2027-03-04'),
      report('flood', '2027-03-05'),
      report('sow-nursery', '2027-03-06'),
    ];
    const plan = planPlot(season(reports, { varietyDays, areaHa: 0.2 }), book, day('2027-03-06'));
    expect(dueOf(plan, 'transplant')).toBe(on);
  });

  // IRRI and Tamil Nadu Agricultural University: seedlings of a mat are ready in 15-20 days, whatever the variety.
  it.each([
    ['mat', 110, 16],
    ['mat', 120, 20],
    ['mat', 135, 20],
    ['dry-bed', 135, 25],
  ] as const)('from a %s, a variety of %i days is planted at %i days', (nursery, varietyDays, age) => {
    const crop = cropDays(book, season([], { way: way({ nursery }), varietyDays }), day('2027-03-01'));
    expect(crop.seedlingAge).toBe(age);
  });
});

describe('work', () => {
  // PhilRice Field Operations Manual 2007: ploughed on X, planted from X + 21, whatever it was ploughed with.
  it.each(['hoe', 'animals', 'two-wheel'] as const)('ploughed with %s, planted 21 days later', (tillage) => {
    const reports = [report('plough', '2027-03-01'), report('sow-nursery', '2027-03-02')];
    const plan = planPlot(season(reports, { way: way({ tillage }), areaHa: 0.05 }), book, day('2027-03-02'));
    expect(dueOf(plan, 'transplant')).toBe('2027-03-22');
  });

  // Rickman & Ferrer, IRRI Rice Today, for ploughing 1 ha: hoe 150, animals 12, two-wheel tractor 1 day. Puddling 1 ha: by
  // hand 315.2 h at 7 h a day and oxen 94.3 h at 4.5 h for both, 21 - 12 days (J. Agric. Sci. 1997); two-wheel tractor
  // 27.4 h at 7 h (Kumar et al. 2015). Levelling 20, 4 and 2 days (from memory). Planting 240 h at 7 h by ten people.
  it.each([
    ['plough', 'hoe', 150],
    ['plough', 'animals', 12],
    ['plough', 'two-wheel', 1],
    ['puddle', 'hoe', 45],
    ['puddle', 'animals', 9],
    ['puddle', 'two-wheel', 4],
    ['level', 'hoe', 20],
    ['level', 'animals', 4],
    ['level', 'two-wheel', 2],
    ['transplant', 'hoe', 4],
  ] as const)('to %s 1 ha with %s takes %i days', (activity, tillage, days) => {
    expect(workDays(book, season([], { way: way({ tillage }), areaHa: 1 }), activity)).toBe(days);
  });

  // Parasites & Vectors 2015, s13071-015-1191-9, Table 3: oxen, 2.2 days an acre are 5.44 days a hectare.
  it('an acre that is told is the acre of the published figure', () => {
    const [acreHa] = hearDetails('1 acre', ENGLISH.lexicon).areasHa;
    expect(2.2 / (acreHa ?? 0)).toBeCloseTo(5.44, 2);
  });
});

describe('what was done too soon or too late is told by its days', () => {
  const told = (first: Activity, then: Activity, days: number, change: Partial<Season> = {}) => {
    const on = day('2027-03-01') + days;
    const reports = [report(first, '2027-03-01'), report(then, isoDay(on))];
    return planPlot(season(reports, { areaHa: 0.2, ...change }), book, on).lapses;
  };

  // Common practice 2-3 days; IRRI, wet preparation: 3-7 days by hardness.
  it.each([
    [1, [{ rule: 'soak', side: 'lo', byDays: 1 }]],
    [2, []],
    [7, []],
    [8, [{ rule: 'soak', side: 'hi', byDays: 1 }]],
  ])('ploughed %i days after soaking', (days, lapses) => {
    expect(told('soak', 'plough', days)).toMatchObject(lapses);
    expect(told('soak', 'plough', days)).toHaveLength(lapses.length);
  });

  // Common practice: two to three weeks under water; Dept of Agriculture Sri Lanka: 14 days before the second tillage.
  it.each([
    [13, [{ rule: 'rot', side: 'lo', byDays: 1 }]],
    [14, []],
    [21, []],
    [22, [{ rule: 'rot', side: 'hi', byDays: 1 }]],
  ])('puddled %i days after flooding', (days, lapses) => {
    expect(told('flood', 'puddle', days)).toMatchObject(lapses);
    expect(told('flood', 'puddle', days)).toHaveLength(lapses.length);
  });

  // Common practice, no ploughing: held under water for one to two months.
  it.each([
    [29, [{ rule: 'hold', side: 'lo', byDays: 1 }]],
    [30, []],
    [60, []],
    [61, [{ rule: 'hold', side: 'hi', byDays: 1 }]],
  ])('without ploughing, planted %i days after flooding', (days, lapses) => {
    const unploughed = { way: way({ tillage: 'none' }) };
    expect(told('flood', 'transplant', days, unploughed)).toMatchObject(lapses);
    expect(told('flood', 'transplant', days, unploughed)).toHaveLength(lapses.length);
  });

  // Common practice and PalayCheck: 10-15 cm, both ends allowed; the tables of plan-plot.test.ts lie further out.
  it.each([
    [9, [{ rule: 'plough-depth', side: 'lo', byCm: -1 }]],
    [16, [{ rule: 'plough-depth', side: 'hi', byCm: 1 }]],
  ])('ploughed %i cm deep', (depthCm, lapses) => {
    const reports = [report('plough', '2027-03-01', 'finished', depthCm)];
    expect(planPlot(season(reports), book, day('2027-03-01')).lapses).toMatchObject(lapses);
  });
});

describe('rain', () => {
  const rainOf = (first: Day, mm: readonly number[]): Rain[] =>
    mm.flatMap((one, index) => (one > 0 ? [{ on: first + index, mm: one }] : []));
  const first = day('2027-05-01');

  /*
   * Ten days by hand: 8 mm stand, 5 evaporate (judgement) and 4 seep away a day (from memory: FAO Training Manual 3, heavy
   * clay), the bunds are 300 mm high (UNEP-IETC 1998 sec. 3.4: 30-45 cm).
   *   1: 8 + 0 - 8 = 0      2: 0 + 5 - 5 = 0       3: 0 + 120 - 9 = 111    4: 111 + 0 - 9 = 102    5: 102 + 40 - 9 = 133
   *   6: 133 + 180 - 9 = 304, 4 run over: 300      7: 300 + 9 - 9 = 300    8: 300 + 50 - 9 = 341, 41 run over: 300
   *   9: 300 - 9 = 291     10: 291 - 9 = 282
   * Lost 8 + 5 + 8 x 9 = 85; 8 + 404 of rain = 282 + 45 + 85.
   */
  it('stands behind the bunds as by hand', () => {
    const rains = rainOf(first, [0, 5, 120, 0, 40, 180, 9, 50, 0, 0]);
    const terms = { from: first, to: first + 9, startMm: 8, percolationMm: 4, bundMm: 300 };
    expect(bundBalance(rains, { ...terms, evaporationMm: () => 5 })).toEqual({
      depthsMm: [0, 0, 111, 102, 133, 300, 300, 300, 291, 282],
      overflowMm: 45,
      lostMm: 85,
    });
  });

  const rainFed = (mm: readonly number[], change: Partial<Season> = {}) =>
    season([], { way: way({ water: 'rain-fed' }), rains: rainOf(first, mm), ...change });

  // By hand: 230 mm, 200 of them in the soil (Morris & Zandstra 1979, quoted by MMSU Agromet), 30 stand and lose 9 a day.
  it.each([
    [1, 0],
    [2, 21],
    [3, 12],
    [4, 3],
    [5, 0],
  ])('on day %i, %i mm stand', (nth, standing) => {
    expect(standingWater(book, rainFed([130, 100]), first + nth - 1)?.standingMm).toBe(standing);
  });

  // van de Goor & Zijlstra 1968, ILRI: open water loses 1.1 times ETo; 30 - 5.5 - 4 = 20.5.
  it("evaporates by the scheme's own ETo", () => {
    const climate = { etoMmPerDay: Array<number>(12).fill(5), source: 'made up for this test' };
    const water = standingWater(book, rainFed([130, 100], { climate }), first + 1);
    expect(water?.standingMm).toBeCloseTo(20.5, 9);
  });

  // Morris & Zandstra 1979, quoted by MMSU Agromet: the sum from the local start date; 75 mm before dry soil is worked
  // (from memory). Sums by hand: 30, 70, 74, 75, 120.
  it('is summed from the start date of the place up to today', () => {
    const fallen = rainFed([50, 30, 40, 4, 1, 45], { rainFrom: first + 1 });
    expect(rainSum(countedRain(fallen, first + 3), 75)).toEqual({ sumMm: 74, reachedOn: null });
    expect(rainSum(countedRain(fallen, first + 4), 75)).toEqual({ sumMm: 75, reachedOn: first + 4 });
    expect(rainSum(countedRain(fallen, first + 9), 75)).toEqual({ sumMm: 120, reachedOn: first + 4 });
  });

  // Marteau 2009: a start is false when a dry spell of 7 days or more follows within 30 days; that 20 mm in one or two days
  // are a start is from memory.
  it.each([
    ['nothing yet: 19 mm in two days', [10, 9], 1, 'none'],
    ['20 mm in two days', [10, 10], 1, 'begun'],
    ['20 mm in three days', [10, 0, 10], 2, 'none'],
    ['six dry days', [20], 6, 'begun'],
    ['seven dry days', [20], 7, 'false-start'],
    ['rain after six dry days', [20, 0, 0, 0, 0, 0, 0, 5], 7, 'begun'],
    ['a new start after a false one', [20, 0, 0, 0, 0, 0, 0, 0, 25], 8, 'begun'],
  ] as const)('%s', (_, mm, today, state) => {
    expect(rainState(book, rainOf(first, mm), first + today)).toBe(state);
  });

  it('is sure after 30 days without a dry spell, whatever follows', () => {
    const wet = Array.from({ length: 31 }, (_, index) => (index % 6 === 0 ? 20 : 0));
    expect(rainState(book, rainOf(first, wet), first + 29)).toBe('begun');
    expect(rainState(book, rainOf(first, wet), first + 30)).toBe('sure');
    expect(rainState(book, rainOf(first, wet), first + 50)).toBe('sure');
  });
});
