/** Work against published hours, against the plan's own days, and what more hands change. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { WORK_ACTIVITIES, type WorkInput, workNeed } from '../../../src/agronomy/sums/work-need.ts';
import { workDays } from '../../../src/agronomy/work-days.ts';
import { season } from '../../support/seasons.ts';
import { made, refusedAs } from '../../support/sums.ts';

const need = (input: WorkInput) => made(workNeed(input, book));
const inputs = fc.record({
  activity: fc.constantFrom(...WORK_ACTIVITIES),
  tillage: fc.constantFrom('hoe' as const, 'animals' as const, 'two-wheel' as const),
  areaHa: fc.integer({ min: 1, max: 500 }).map((ares) => ares / 100),
  teams: fc.integer({ min: 1, max: 20 }),
});

/** Work in all, in days of one team. */
function teamDays({ effort }: ReturnType<typeof need>): number {
  switch (effort.teamsAre) {
    case 'people':
      return effort.personDays;
    case 'pairs':
      return effort.pairDays;
    case 'tillers':
      return effort.machineDays;
  }
}

describe('a hectare', () => {
  // Kumar et al. 2015, Indian J. Hill Farming 28(1): 27.4 h of a two-wheel tractor to puddle.
  it('is puddled by a tiller in 27.4 hours', () => {
    const { effort } = need({ activity: 'puddle', tillage: 'two-wheel', areaHa: 1 });
    expect(effort).toMatchObject({ teamsAre: 'tillers', machineHours: expect.closeTo(27.4, 9) });
  });

  // J. Agric. Sci. 1997, abstract: puddled by hand in 315.2 h; ploughed and harrowed by oxen in 94.3 h. Our figures are whole days.
  it('takes hands and oxen as many hours as published, to 1 %', () => {
    const byHand = need({ activity: 'puddle', tillage: 'hoe', areaHa: 1 }).effort;
    expect(byHand).toMatchObject({ teamsAre: 'people', personHours: 315 });
    const oxen = (['plough', 'puddle'] as const).map(
      (activity) => need({ activity, tillage: 'animals', areaHa: 1 }).effort,
    );
    const hours = oxen.reduce((sum, one) => sum + (one.teamsAre === 'pairs' ? one.pairHours : Number.NaN), 0);
    expect(Math.abs(hours / 94.3 - 1)).toBeLessThan(0.01);
  });

  // Six published sources: 126 to 400 person-hours to plant by hand.
  it.each(['hoe', 'animals', 'two-wheel', 'none'] as const)(
    'is planted by people, tilled with %s',
    (tillage) => {
      const { effort, teams } = need({ activity: 'transplant', tillage, areaHa: 1 });
      expect(effort).toMatchObject({ teamsAre: 'people', personHours: expect.closeTo(240, 9) });
      expect(teams).toBe(10);
    },
  );

  // Rickman & Ferrer, IRRI Rice Today: ploughed with a hoe in 150 person-days; three people take a third of the days.
  it.each([
    [1, 150],
    [2, 75],
    [3, 50],
    [4, 38],
  ])('is hoed by %i people in %i days', (teams, days) => {
    expect(need({ activity: 'plough', tillage: 'hoe', areaHa: 1, teams }).days).toBe(days);
  });
});

describe('any work', () => {
  it('takes the days that the plan gives it', () => {
    fc.assert(
      fc.property(inputs, ({ activity, tillage, areaHa, teams }) => {
        const way = { ...season().way, tillage };
        const planned = workDays(book, season([], { way, areaHa, teams: { [activity]: teams } }), activity);
        expect(need({ activity, tillage, areaHa, teams }).days).toBe(planned);
        const usual = workDays(book, season([], { way, areaHa }), activity);
        expect(need({ activity, tillage, areaHa }).days).toBe(usual);
      }),
    );
  });

  it('is done in its days, and not in a day less', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const found = need(input);
        for (const { teams, days } of [found, ...found.withMore]) {
          expect(days * teams).toBeGreaterThan(teamDays(found) - 1e-6);
          if (days > 1) expect((days - 1) * teams).toBeLessThan(teamDays(found));
        }
        expect(found.withMore.map(({ teams }) => teams)).toEqual([2 * input.teams, 3 * input.teams]);
      }),
    );
  });

  it('is as much in all, however many share it', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        expect(teamDays(need({ ...input, teams: 1 }))).toBe(teamDays(need(input)));
      }),
    );
  });

  it('tells the usual gang only where none is given', () => {
    const names = (input: WorkInput) => need(input).assumptions.map(({ name }) => name);
    const planting = { activity: 'transplant', tillage: 'hoe', areaHa: 0.4 } as const;
    expect(names(planting)).toEqual(['work.transplant', 'work.hours.people', 'gang.transplant']);
    expect(names({ ...planting, teams: 4 })).toEqual(['work.transplant', 'work.hours.people']);
  });
});

describe('what is refused', () => {
  const PLOUGH: WorkInput = { activity: 'plough', tillage: 'hoe', areaHa: 0.4 };
  it.each([
    [{ areaHa: 0 }, 'area-zero: 0'],
    [{ areaHa: Number.NaN }, 'not-a-number: NaN'],
    [{ teams: 0 }, 'teams-zero: 0'],
    [{ teams: -2 }, 'teams-zero: -2'],
    [{ teams: 1.5 }, 'not-whole: 1.5'],
    [{ teams: 5000 }, 'teams-over: 5000'],
    [{ teams: Number.NaN }, 'not-a-number: NaN'],
    [{ tillage: 'none' }, 'no-such-work: plough with tillage none'],
  ] as const)('%j: %s', (change, refused) => {
    expect(refusedAs(workNeed({ ...PLOUGH, ...change }, book))).toBe(refused);
  });
});
