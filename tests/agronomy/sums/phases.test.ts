/** The crop's phases against IRRI's, and against the plan's own days. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import { stepFor } from '../../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../../src/agronomy/season.ts';
import { phasesOf } from '../../../src/agronomy/sums/phases.ts';
import type { Day } from '../../../src/plan/day.ts';
import { day, report, season } from '../../support/seasons.ts';
import { seasons, TODAY } from '../properties/any-season.ts';

const SOWN = day('2027-03-01');
const WET_SEED = { ...season().way, establishment: 'wet-seed' } as const;
const LOCAL = { ...season().way, ripens: 'by-local-date' } as const;

function phases(of: Season, today: Day = SOWN) {
  const found = phasesOf(of, planPlot(of, book, today), book);
  if (found.phases === null) throw new Error(`lacks ${found.lacks}`);
  return found.phases;
}

const seeded = (varietyDays: number) =>
  season([report('sow-direct', '2027-03-01')], { way: WET_SEED, varietyDays });
const planted = (varietyDays: number, change: Partial<Season> = {}) =>
  season([report('sow-nursery', '2027-03-01'), report('transplant', '2027-03-22')], {
    varietyDays,
    ...change,
  });

describe('a crop that ripens by its days', () => {
  // IRRI, three growth phases: IR64 45 + 35 + 30 days, IR8 65 + 35 + 30. Drained 10 days before harvest (IRRI 7-10, RKMP
  // 10-15). Grain is milky from a week after flowering (from memory).
  it.each([
    [110, 45, 80],
    [130, 65, 100],
  ])(
    'of %i days, sown in the field, forms panicles at %i days and flowers at %i',
    (days, panicle, flowering) => {
      expect(phases(seeded(days))).toEqual({
        sownOn: SOWN,
        panicleOn: SOWN + panicle,
        floweringOn: SOWN + flowering,
        drainOn: SOWN + days - 10,
        harvestOn: SOWN + days,
        birds: { from: SOWN + flowering + 7, to: SOWN + days },
      });
    },
  );

  // Yoshida 1981, Table 1.6 p. 18: transplanting costs days, 7 in the warmth.
  it('of 110 days, transplanted, comes to each a week later', () => {
    expect(phases(planted(110), day('2027-03-22'))).toMatchObject({
      panicleOn: SOWN + 52,
      floweringOn: SOWN + 87,
      drainOn: SOWN + 107,
      harvestOn: SOWN + 117,
    });
  });

  // Yoshida 1981, p. 1-2: 60 days of growth, then 30 and 30, for 120 days; IRRI's 35 days from panicle to flower differ by 5.
  it('of 120 days flowers when Yoshida says, and forms panicles within 5 days of it', () => {
    const found = phases(seeded(120));
    expect(found.floweringOn).toBe(SOWN + 90);
    expect(Math.abs(found.panicleOn - (SOWN + 60))).toBeLessThanOrEqual(5);
  });

  it('is counted from when it is to be sown, while it is not', () => {
    const open = season([], { way: WET_SEED, varietyDays: 110 });
    const plan = planPlot(open, book, SOWN);
    const sown = stepFor(plan, 'sow-direct')?.due ?? Number.NaN;
    expect(phases(open)).toMatchObject({ sownOn: sown, panicleOn: sown + 45, floweringOn: sown + 80 });
    expect(sown).toBeGreaterThan(SOWN);
  });

  it('that was sown on a day not known is counted back from its harvest', () => {
    const unknown = season([report('sow-nursery', null), report('transplant', '2027-03-22')]);
    const found = phases(unknown, day('2027-03-22'));
    expect(found).toMatchObject({
      sownOn: null,
      panicleOn: found.harvestOn - 65,
      floweringOn: found.harvestOn - 30,
    });
  });

  it('whose sowing took days is counted from the first of them', () => {
    const slow = [report('sow-direct', '2027-03-01', 'started'), report('sow-direct', '2027-03-04')];
    expect(phases(season(slow, { way: WET_SEED }), SOWN + 3).sownOn).toBe(SOWN);
  });

  it('cut before its grain was milky had no birds to fear', () => {
    const green = [...seeded(110).reports, report('harvest', '2027-05-20')];
    expect(phases({ ...seeded(110), reports: green }, day('2027-05-20')).birds).toBeNull();
  });

  // The feed comes 5 to 7 days before panicle initiation (Masagana 99 box, PIDS DPS 05-14).
  it('is fed 5 to 7 days before its panicles', () => {
    for (const varietyDays of [90, 110, 120, 135, 160]) {
      const crop = planted(varietyDays);
      const feed = stepFor(planPlot(crop, book, day('2027-03-22')), 'topdress', 2)?.due ?? Number.NaN;
      const before = phases(crop, day('2027-03-22')).panicleOn - feed;
      expect(before).toBeGreaterThanOrEqual(5);
      expect(before).toBeLessThanOrEqual(7);
    }
  });
});

describe('a crop that ripens by a local date', () => {
  it('has no phases, and says why, till the date is known', () => {
    const crop = planted(150, { way: LOCAL });
    expect(phasesOf(crop, planPlot(crop, book, SOWN + 21), book)).toMatchObject({
      phases: null,
      lacks: 'harvest-date',
    });
  });

  // IRRI, three growth phases: panicles 65, flowers 30 days before harvest, whenever the crop was sown.
  it('is counted back from the date', () => {
    const harvestOn = day('2027-07-25');
    expect(phases(planted(150, { way: LOCAL, harvestOn }), SOWN + 21)).toMatchObject({
      panicleOn: day('2027-05-21'),
      floweringOn: day('2027-06-25'),
      drainOn: day('2027-07-15'),
      harvestOn,
    });
  });
});

describe('any crop', () => {
  const RUNS = { numRuns: 300 };

  it('is drained and cut when its plan says, and its phases come in their order', () => {
    let seen = 0;
    fc.assert(
      fc.property(seasons, (any) => {
        const plan = planPlot(any, book, TODAY);
        const found = phasesOf(any, plan, book).phases;
        if (found === null) return;
        seen += 1;
        const [drain, harvest] = [stepFor(plan, 'drain'), stepFor(plan, 'harvest')];
        expect(found.drainOn).toBe(drain?.on ?? drain?.due ?? null);
        const cut = harvest?.on ?? harvest?.due ?? null;
        if (cut !== null) expect(found.harvestOn).toBe(cut);
        expect(found.floweringOn - found.panicleOn).toBe(35);
        if (found.birds) expect(found.birds.to).toBe(found.harvestOn);
        if (found.birds) expect(found.birds.from).toBe(found.floweringOn + 7);
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(RUNS.numRuns / 2);
  });

  it('has none only where no day is known to count from', () => {
    fc.assert(
      fc.property(seasons, (any) => {
        const plan = planPlot(any, book, TODAY);
        const { phases: found, lacks } = phasesOf(any, plan, book);
        expect(lacks === null).toBe(found !== null);
        if (lacks !== 'harvest-date') return;
        expect(any.way.ripens).toBe('by-local-date');
        expect(any.harvestOn).toBeUndefined();
      }),
      RUNS,
    );
  });

  it('sown so many days later comes to everything so many days later', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 60, max: 240 }),
        (later, varietyDays) => {
          const moved = {
            ...seeded(varietyDays),
            reports: [{ activity: 'sow-direct', stage: 'finished', on: SOWN + later } as const],
          };
          const [first, then] = [phases(seeded(varietyDays)), phases(moved, SOWN + later)];
          expect(then.panicleOn - first.panicleOn).toBe(later);
          expect(then.floweringOn - first.floweringOn).toBe(later);
          expect(then.harvestOn - first.harvestOn).toBe(later);
        },
      ),
      RUNS,
    );
  });
});
