/** Ways out in every season: there is one for every conflict and breach, and taking it does what it says. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import type { PlanBreach, PlotPlan, Remedy } from '../../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import type { Season } from '../../../src/agronomy/season.ts';
import { withRemedy } from '../../../src/agronomy/with-remedy.ts';
import { teamsFor } from '../../../src/agronomy/work-days.ts';
import { seasons, TODAY } from './any-season.ts';

const RUNS = { numRuns: 600 };

interface Taken {
  readonly season: Season;
  readonly plan: PlotPlan;
  readonly remedy: Remedy;
  /** The plan once the way out is taken. */
  readonly after: PlotPlan;
}

function takeAll(season: Season, plan: PlotPlan): readonly Taken[] {
  return plan.remedies.map((remedy) => ({
    season,
    plan,
    remedy,
    after: planPlot(withRemedy(season, remedy, plan), book, TODAY),
  }));
}

/** Checks every way out of every season; returns how many of each kind there were. */
function forEveryRemedy(
  check: (taken: Taken) => void,
  some = seasons,
  runs: { readonly numRuns: number; readonly seed?: number } = RUNS,
): ReadonlyMap<string, number> {
  const kinds = new Map<string, number>();
  fc.assert(
    fc.property(some, (season) => {
      for (const taken of takeAll(season, planPlot(season, book, TODAY))) {
        const { kind } = taken.remedy;
        kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
        check(taken);
      }
    }),
    runs,
  );
  return kinds;
}

const plantingIn = ({ steps }: PlotPlan) =>
  steps.find(({ activity }) => activity === 'transplant' || activity === 'sow-direct')?.due ?? null;
const isSameBreach = (a: PlanBreach, b: PlanBreach) => a.rule === b.rule && a.side === b.side;
/** Breaches that only the way out has brought. */
const newIn = ({ plan, after }: Taken) =>
  after.breaches.filter((one) => !plan.breaches.some((known) => isSameBreach(known, one)));
const breachAnswered = ({ plan, remedy }: Taken) => plan.breaches.find(({ rule }) => rule === remedy.rule);

it('there is one for every conflict and for every breach', () => {
  let [conflicts, breaches] = [0, 0];
  fc.assert(
    fc.property(seasons, (season) => {
      const plan = planPlot(season, book, TODAY);
      const taken = takeAll(season, plan);
      for (const { rules } of plan.conflicts) {
        conflicts++;
        const helps = taken.some(
          ({ remedy, after }) =>
            rules.includes(remedy.rule) && !after.conflicts.some((one) => one.rules.includes(remedy.rule)),
        );
        // Planting that alone outlasts the seedlings needs more hands besides a fresh nursery.
        expect(helps || taken.some(({ remedy }) => remedy.kind === 'sow-afresh'), rules.join()).toBe(true);
      }
      for (const breach of plan.breaches) {
        breaches++;
        const helps = taken.some(
          ({ remedy, after }) =>
            remedy.rule === breach.rule || !after.breaches.some((one) => isSameBreach(one, breach)),
        );
        expect(helps, breach.rule).toBe(true);
      }
    }),
    RUNS,
  );
  expect(conflicts).toBeGreaterThan(50);
  expect(breaches).toBeGreaterThan(300);
});

it('ends the conflict that it answers and brings no other', () => {
  forEveryRemedy(({ plan, remedy, after }) => {
    const given = plan.conflicts.map(({ rules }) => rules[0]);
    for (const { rules } of after.conflicts) expect(given).toContain(rules[0]);
    if (remedy.kind === 'go-on' || remedy.kind === 'tell-group') return;
    for (const { rules } of after.conflicts) expect(rules).not.toContain(remedy.rule);
  });
});

it('is met in every kind: the seasons that the others draw are not all alike', () => {
  // Always the same seasons: some kinds are rare, and chance alone must not decide.
  const kinds = forEveryRemedy(() => undefined, seasons, { ...RUNS, seed: 1 });
  for (const kind of ['sow-afresh', 'soak-again', 'ask-water', 'do-again', 'change-way', 'go-on'])
    expect(kinds.get(kind), kind).toBeGreaterThan(0);
});

it('has its day, not before today, and the planting day that it leads to', () => {
  const STEP_OF: Partial<Record<Remedy['kind'], string>> = {
    'sow-afresh': 'sow-nursery',
    'soak-again': 'pregerminate',
    'plant-older': 'transplant',
    'change-way': 'flood',
  };
  forEveryRemedy(({ remedy, after }) => {
    expect(remedy.on).toBeGreaterThanOrEqual(TODAY);
    expect(remedy.plantOn).toBe(plantingIn(after));
    const step = STEP_OF[remedy.kind] ?? remedy.activity;
    const days = after.steps.filter(({ activity }) => activity === step).map(({ due }) => due);
    if (step !== undefined) expect(days, step).toContain(remedy.on);
    if (remedy.kind === 'tell-group') expect(remedy.on).toBe(remedy.plantOn);
  });
});

it('of work again comes before planting, mends its rule and leaves none as dear instead', () => {
  forEveryRemedy((taken) => {
    const { remedy, after } = taken;
    const breach = breachAnswered(taken);
    if ((remedy.kind !== 'do-again' && remedy.kind !== 'more-teams') || !breach) return;
    if (remedy.kind === 'do-again') expect(remedy.on).toBeLessThan(remedy.plantOn ?? 0);
    expect(after.breaches.filter((one) => isSameBreach(one, breach))).toEqual([]);
    for (const { cost, rule } of newIn(taken)) expect(cost.rank, rule).toBeLessThan(breach.cost.rank);
  });
});

it('of more teams asks for more than there are, and for none too many', () => {
  forEveryRemedy((taken) => {
    const { season, plan, remedy } = taken;
    const { activity, teams = 0 } = remedy;
    if (remedy.kind !== 'more-teams' || !activity) return;
    expect(teams).toBeGreaterThan(teamsFor(book, season, activity));
    if (teams - 1 <= teamsFor(book, season, activity)) return;
    const fewer = planPlot(withRemedy(season, { ...remedy, teams: teams - 1 }, plan), book, TODAY);
    const breach = breachAnswered(taken);
    const stillClashes = fewer.conflicts.some(({ rules }) => rules.includes(remedy.rule));
    const brings = newIn({ ...taken, after: fewer }).some(
      ({ cost }) => cost.rank >= (breach?.cost.rank ?? 99),
    );
    const stays = breach !== undefined && fewer.breaches.some((one) => isSameBreach(one, breach));
    expect(stillClashes || brings || stays).toBe(true);
  });
});

/** Transplanted seasons, half of them with a nursery of five weeks ago, by few hands. */
const sownLongAgo = fc.tuple(seasons, fc.boolean()).map(([season, isSown]): Season => {
  const sown = { activity: 'sow-nursery', stage: 'finished', on: TODAY - 35 } as const;
  return {
    ...season,
    way: { ...season.way, establishment: 'transplant' },
    teams: { transplant: 2 },
    reports: isSown ? [...season.reports, sown] : season.reports,
  };
});

it('of a fresh nursery gives young seedlings, where one is growing', () => {
  const kinds = forEveryRemedy(
    ({ plan, remedy, after }) => {
      if (remedy.kind !== 'sow-afresh') return;
      expect(plan.steps.find(({ activity }) => activity === 'sow-nursery')?.status).toMatch(/done|started/);
      expect(after.breaches.filter(({ rule, side }) => rule === 'seedling-age' && side === 'hi')).toEqual([]);
    },
    sownLongAgo,
    { numRuns: 250 },
  );
  expect(kinds.get('sow-afresh')).toBeGreaterThan(20);
});

it('of another way plants sooner; of water asked for names a day on which the canal is shut', () => {
  forEveryRemedy(({ season, plan, remedy, after }) => {
    if (remedy.kind === 'change-way') expect(remedy.plantOn).toBeLessThan(plantingIn(plan) ?? 0);
    if (remedy.kind !== 'ask-water') return;
    const { from, to } = season.blockWater;
    expect((from !== null && remedy.on < from) || (to !== null && remedy.on > to)).toBe(true);
    const wet = after.steps.filter(({ activity }) => ['soak', 'flood', 'puddle'].includes(activity));
    expect(wet.map(({ due }) => due)).toContain(remedy.on);
  });
});

it('is told once', () => {
  fc.assert(
    fc.property(seasons, (season) => {
      const told = planPlot(season, book, TODAY).remedies.map(({ kind, activity, teams, rule, on }) =>
        kind === 'go-on' ? [kind, activity, rule, on].join() : [kind, activity, teams].join(),
      );
      expect(new Set(told).size).toBe(told.length);
    }),
    RUNS,
  );
});
