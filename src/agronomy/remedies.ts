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

type Draft = Omit<Remedy, 'on' | 'cost' | 'plantOn'>;

/**
 * Plans again with the way out and takes its day from that plan (`dayIn`); null when it has no such day, or when the
 * conflict stays or another comes.
 */
function tried(
  { season, plan, replan }: Search,
  draft: Draft,
  dayIn: (after: PlotPlan) => Day | null,
): Remedy | null {
  const cost = REMEDY_COSTS[draft.kind];
  const after = replan(withRemedy(season, { ...draft, on: plan.today, cost, plantOn: null }, plan));
  const on = dayIn(after);
  const clashes = after.conflicts.some(
    ({ rules }) =>
      rules.includes(draft.rule) || !plan.conflicts.some((known) => sameRules(known.rules, rules)),
  );
  return on === null || clashes ? null : { ...draft, on, cost, plantOn: plantOn(after) };
}

const sameRules = (a: readonly string[], b: readonly string[]) =>
  a.length === b.length && a.every((rule) => b.includes(rule));

const sowAfresh = (search: Search, rule: string) =>
  tried(search, { kind: 'sow-afresh', rule }, (after) => dueOf(after, 'sow-nursery'));

const soakAgain = (search: Search) =>
  tried(search, { kind: 'soak-again', rule: 'pregerminate' }, (after) => dueOf(after, 'pregerminate'));

function plantOlder(search: Search): Remedy | null {
  const { plan, book } = search;
  const on = dueOf(plan, 'transplant');
  const sown = stepFor(plan, 'sow-nursery')?.on ?? null;
  const lost = plan.conflicts.some(({ rules }) => rules.includes('seedling-old'));
  if (on === null || sown === null || lost) return null;
  const ageDays = on - sown;
  const extra = extraSeedlings(book, ageDays, plan.crop.seedlingAge);
  const draft = { kind: 'plant-older', rule: 'seedling-age', ageDays, extraSeedlings: extra } as const;
  return { ...draft, on, cost: REMEDY_COSTS['plant-older'], plantOn: on };
}

/** The first day on which the plot needs water that the canal does not bring; null when it brings all of it. */
function askWater(search: Search, rule: string): Remedy | null {
  const { from, to } = search.season.blockWater;
  if (from === null && to === null) return null;
  const shut = (day: Day) => (from !== null && day < from) || (to !== null && day > to);
  return tried(search, { kind: 'ask-water', rule }, (open) => {
    const needed = NEED_WATER.flatMap((activity) => {
      const step = stepFor(open, activity);
      return step && step.status !== 'done' && step.due !== null && shut(step.due) ? [step.due] : [];
    });
    return needed.length === 0 ? null : Math.max(search.plan.today, Math.min(...needed));
  });
}

function doAgain(search: Search, rule: string, activity: Activity): Remedy | null {
  if (stepFor(search.plan, activity)?.status !== 'done') return null;
  return tried(search, { kind: 'do-again', rule, activity }, (after) => dueOf(after, activity));
}

/** Enough teams at the longest work that is still to do to plant in step with the group: the fewest. */
function moreTeams(search: Search): Remedy | null {
  const longest = search.plan.steps.reduce<PlanStep | null>(
    (most, step) => (lengthOf(step) > lengthOf(most) ? step : most),
    null,
  );
  if (!longest) return null;
  const { activity } = longest;
  const inStep = (after: PlotPlan) =>
    after.breaches.some(({ rule }) => rule === 'target') ? null : dueOf(after, activity);
  const withTeams = (teams: number) =>
    tried(search, { kind: 'more-teams', rule: 'target', activity, teams }, inStep);
  let best = withTeams(MOST_TEAMS);
  for (let [few, many] = [2, MOST_TEAMS]; best && few < many; ) {
    const middle = Math.floor((few + many) / 2);
    const fewer = withTeams(middle);
    if (fewer) [best, many] = [fewer, middle];
    else few = middle + 1;
  }
  return best;
}

const lengthOf = (step: PlanStep | null): number =>
  step?.doneBy != null && step.due !== null ? step.doneBy - step.due : 0;

/** Nothing to plough with: flood without ploughing, where that plants sooner. */
function unploughed(search: Search): Remedy | null {
  const { season, plan } = search;
  const lacks = season.machineFrom !== undefined && season.machineFrom > plan.today;
  if (!lacks || season.way.tillage === 'none' || stepFor(plan, 'plough')?.status === 'done') return null;
  const later = plantOn(plan);
  return tried(search, { kind: 'change-way', rule: 'no-machine' }, (after) => {
    const sooner = plantOn(after);
    return sooner !== null && later !== null && sooner < later ? dueOf(after, 'flood') : null;
  });
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
