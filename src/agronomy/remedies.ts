/** Ways out of a plan that cannot keep its rules: each with its day, its cost, and planned again to see that it works. */
import type { Day } from '../plan/day.ts';
import { plantingStep } from './frame.ts';
import { type PlanBreach, type PlanStep, type PlotPlan, type Remedy, stepFor } from './plot-plan.ts';
import { REMEDY_COSTS } from './remedy-costs.ts';
import type { Rulebook } from './rulebook.ts';
import type { Activity, Season } from './season.ts';
import { extraSeedlings } from './variety.ts';
import { withRemedy } from './with-remedy.ts';

/** What a way out is found with: the season, its plan, and planning again without looking for ways out. */
interface Search {
  readonly season: Season;
  readonly book: Rulebook;
  readonly plan: PlotPlan;
  readonly replan: (season: Season) => PlotPlan;
}

/** More teams than this are not to be had. */
const MOST_TEAMS = 12;
const NEED_WATER: readonly Activity[] = ['soak', 'flood', 'puddle'];

/** Work that is done again when what follows it came too late, by the rule that was left. */
const DONE_AGAIN: Readonly<Record<string, Activity>> = {
  'plough-lead': 'plough',
  'puddle-level': 'puddle',
  settle: 'level',
  'direct-settle': 'level',
};

/** Ways out of every conflict and breach; empty when the plan keeps its rules. */
export function remediesOf(
  season: Season,
  book: Rulebook,
  plan: PlotPlan,
  replan: (season: Season) => PlotPlan,
): readonly Remedy[] {
  const search: Search = { season, book, plan, replan };
  const found = [
    ...plan.conflicts.flatMap(({ rules }) => outOfConflict(search, rules)),
    ...plan.breaches.flatMap((breach) => outOfBreach(search, breach)),
  ];
  return found.filter(
    (remedy, index) =>
      found.findIndex(({ kind, activity }) => kind === remedy.kind && activity === remedy.activity) === index,
  );
}

function outOfConflict(search: Search, rules: readonly string[]): Remedy[] {
  const found: (Remedy | null)[] = [];
  if (rules.includes('seedling-old')) found.push(sowAfresh(search, 'seedling-old'), unploughed(search));
  if (rules.includes('pregerminate')) found.push(soakAgain(search));
  if (rules.includes('block-water')) found.push(askWater(search, 'block-water'));
  return found.filter((remedy) => remedy !== null);
}

function outOfBreach(search: Search, breach: PlanBreach): Remedy[] {
  const { rule, side } = breach;
  const again = side === 'hi' ? DONE_AGAIN[rule] : undefined;
  const found: (Remedy | null)[] = [];
  if (rule === 'seedling-age' && side === 'hi')
    found.push(sowAfresh(search, rule), plantOlder(search), unploughed(search));
  else if (rule === 'target' && side === 'hi') found.push(moreTeams(search), unploughed(search));
  else if (rule === 'flood-after-plough' && side === 'hi') found.push(askWater(search, rule));
  else if (rule === 'uneven') found.push(doAgain(search, rule, 'level'));
  else if (again) found.push(doAgain(search, rule, again));
  const works = found.filter((remedy) => remedy !== null);
  return works.length > 0 ? works : goOn(search, breach);
}

const dueOf = (plan: PlotPlan, activity: Activity): Day | null => stepFor(plan, activity)?.due ?? null;
const plantOn = ({ steps }: PlotPlan): Day | null => steps[plantingStep(steps)]?.due ?? null;

/** The remedy with its cost and planting day, if planning again with it leaves no conflict that was not there before. */
function checked(search: Search, remedy: Omit<Remedy, 'cost' | 'plantOn'>): Remedy | null {
  const whole: Remedy = { ...remedy, cost: REMEDY_COSTS[remedy.kind], plantOn: null };
  const after = search.replan(withRemedy(search.season, whole, search.plan));
  const clashes = after.conflicts.some(
    ({ rules }) =>
      rules.includes(remedy.rule) || !search.plan.conflicts.some((known) => sameRules(known.rules, rules)),
  );
  return clashes ? null : { ...whole, plantOn: plantOn(after) };
}

const sameRules = (a: readonly string[], b: readonly string[]) =>
  a.length === b.length && a.every((rule) => b.includes(rule));

function sowAfresh(search: Search, rule: string): Remedy | null {
  const draft = { kind: 'sow-afresh' as const, rule, on: search.plan.today };
  const on = dueOf(search.replan(trial(search, draft)), 'sow-nursery');
  return on === null ? null : checked(search, { ...draft, on });
}

const trial = ({ season, plan }: Search, draft: Omit<Remedy, 'cost' | 'plantOn'>): Season =>
  withRemedy(season, { ...draft, cost: REMEDY_COSTS[draft.kind], plantOn: null }, plan);

function plantOlder(search: Search): Remedy | null {
  const { plan, book } = search;
  const on = dueOf(plan, 'transplant');
  const sown = stepFor(plan, 'sow-nursery')?.on ?? null;
  const lost = plan.conflicts.some(({ rules }) => rules.includes('seedling-old'));
  if (on === null || sown === null || lost) return null;
  const ageDays = on - sown;
  const extra = extraSeedlings(book, ageDays, plan.crop.seedlingAge);
  return checked(search, { kind: 'plant-older', rule: 'seedling-age', on, ageDays, extraSeedlings: extra });
}

function soakAgain(search: Search): Remedy | null {
  const draft = { kind: 'soak-again' as const, rule: 'pregerminate', on: search.plan.today };
  const on = dueOf(search.replan(trial(search, draft)), 'pregerminate');
  return on === null ? null : checked(search, { ...draft, on });
}

/** The first day on which the plot needs water that the canal does not bring; null when it brings all of it. */
function askWater(search: Search, rule: string): Remedy | null {
  const { season, plan } = search;
  const { from, to } = season.blockWater;
  const open = search.replan({ ...season, blockWater: { from: null, to: null } });
  const shut = (day: Day) => (from !== null && day < from) || (to !== null && day > to);
  const needed = NEED_WATER.flatMap((activity) => {
    const step = stepFor(open, activity);
    return step && step.status !== 'done' && step.due !== null && shut(step.due) ? [step.due] : [];
  });
  if (needed.length === 0) return null;
  return checked(search, { kind: 'ask-water', rule, on: Math.max(plan.today, Math.min(...needed)) });
}

function doAgain(search: Search, rule: string, activity: Activity): Remedy | null {
  if (stepFor(search.plan, activity)?.status !== 'done') return null;
  const draft = { kind: 'do-again' as const, rule, activity, on: search.plan.today };
  const on = dueOf(search.replan(trial(search, draft)), activity);
  return on === null ? null : checked(search, { ...draft, on });
}

/** Enough teams at the longest work that is still to do to plant in step with the group. */
function moreTeams(search: Search): Remedy | null {
  const longest = search.plan.steps.reduce<PlanStep | null>(
    (most, step) => (lengthOf(step) > lengthOf(most) ? step : most),
    null,
  );
  if (!longest || longest.due === null) return null;
  for (let teams = 2; teams <= MOST_TEAMS; teams++) {
    const { activity, due: on } = longest;
    const draft = { kind: 'more-teams' as const, rule: 'target', activity, teams, on };
    const after = search.replan(trial(search, draft));
    if (!after.breaches.some(({ rule }) => rule === 'target')) return checked(search, draft);
  }
  return null;
}

const lengthOf = (step: PlanStep | null): number =>
  step?.doneBy != null && step.due !== null ? step.doneBy - step.due : 0;

/** Nothing to plough with: flood without ploughing, where that plants sooner. */
function unploughed(search: Search): Remedy | null {
  const { season, plan } = search;
  const lacks = season.machineFrom !== undefined && season.machineFrom > plan.today;
  if (!lacks || season.way.tillage === 'none' || stepFor(plan, 'plough')?.status === 'done') return null;
  const draft = { kind: 'change-way' as const, rule: 'no-machine', on: plan.today };
  const after = search.replan(trial(search, draft));
  const [sooner, later] = [plantOn(after), plantOn(plan)];
  const on = dueOf(after, 'flood');
  if (on === null || sooner === null || later === null || sooner >= later) return null;
  return checked(search, { ...draft, on });
}

/** No better way: the step on its day all the same, at the cost of the rule that is left; out of step, the group is told. */
function goOn({ book, plan }: Search, { rule, side, cost }: PlanBreach): Remedy[] {
  if (rule === 'target') {
    const on = plantOn(plan);
    return on === null ? [] : [{ kind: 'tell-group', rule, on, cost, plantOn: on }];
  }
  const ends = book.rules
    .filter(({ name }) => name === rule)
    .flatMap(({ from, to }) => (side === 'hi' ? [to, from] : [from, to]));
  const open = ends
    .map(({ activity, round }) => stepFor(plan, activity, round))
    .find((step) => step && step.status !== 'done' && step.due !== null);
  if (!open || open.due === null) return [];
  return [{ kind: 'go-on', rule, activity: open.activity, on: open.due, cost, plantOn: plantOn(plan) }];
}
