/** Ways out of a plan that cannot keep its rules: each with its day, its cost, and planned again to see that it works. */
import type { Day } from '../plan/day.ts';
import { plantingStep } from './frame.ts';
import { type PlanBreach, type PlanStep, type PlotPlan, type Remedy, stepFor } from './plot-plan.ts';
import { REMEDY_COSTS } from './remedy-costs.ts';
import type { Rulebook } from './rulebook.ts';
import type { Activity, Season } from './season.ts';
import { extraSeedlings } from './variety.ts';
import { withRemedy } from './with-remedy.ts';
import { teamsFor } from './work-days.ts';

/** What a way out is found with: the season, its plan, and planning again without looking for ways out. */
interface Search {
  readonly season: Season;
  readonly book: Rulebook;
  readonly plan: PlotPlan;
  readonly replan: (season: Season) => PlotPlan;
}

/** More teams than this, or than so many times the usual gang, are not to be had to keep a date; */
const MOST_TEAMS = 12;
const TEAMS_TIMES = 3;
/** where nothing else helps, it is told how many it would take. */
const TEAMS_AT_ALL = 10_000;
const NEED_WATER: readonly Activity[] = ['soak', 'flood', 'puddle'];

/** Work that is done again when what follows it came too late, by the rule that was left: the least of it that helps. */
const DONE_AGAIN: Readonly<Record<string, readonly Activity[]>> = {
  'puddle-level': ['puddle'],
  settle: ['level', 'puddle'],
  'direct-settle': ['level', 'puddle'],
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
  return found.filter((remedy, index) => found.findIndex((other) => isSameWay(other, remedy)) === index);
}

/** The same thing to do; to go on is another matter for each rule that is left. */
function isSameWay(a: Remedy, b: Remedy): boolean {
  if (a.kind !== b.kind || a.activity !== b.activity || a.teams !== b.teams) return false;
  return a.kind !== 'go-on' || (a.rule === b.rule && a.on === b.on);
}

function outOfConflict(search: Search, rules: readonly string[]): Remedy[] {
  const found: (Way | null)[] = [];
  if (rules.includes('seedling-old')) {
    const afresh = sowAfresh(search, 'seedling-old');
    found.push(afresh ?? moreTeams(search, 'seedling-old'), unploughed(search));
  }
  if (rules.includes('pregerminate')) found.push(soakAgain(search));
  if (rules.includes('block-water')) found.push(askWater(search, 'block-water'));
  return found.flatMap((way) => (way ? [way.remedy] : []));
}

/** Ways out of a breach; unless one of them mends it, to go on all the same is among them. */
function outOfBreach(search: Search, breach: PlanBreach): Remedy[] {
  const ways = waysOut(search, breach).filter((way) => way !== null);
  const remedies = ways.map(({ remedy }) => remedy);
  const helps = ways.some(({ remedy, after }) => remedy.kind === 'plant-older' || !isLeft(after, breach));
  return helps ? remedies : [...remedies, ...goOn(search, breach)];
}

function waysOut(search: Search, breach: PlanBreach): (Way | null)[] {
  const { rule, side } = breach;
  if (rule === 'uneven') return [doAgain(search, breach, ['level', 'puddle'])];
  if (side === 'lo') return [];
  switch (rule) {
    case 'seedling-age':
      return [sowAfresh(search, rule), plantOlder(search), unploughed(search)];
    case 'target':
      return [moreTeams(search, rule, breach), unploughed(search)];
    case 'flood-after-plough':
      return [askWater(search, rule)];
    case 'plough-lead':
      return [doAgain(search, breach, ['plough']) ?? moreTeams(search, rule, breach)];
    default:
      return [doAgain(search, breach, DONE_AGAIN[rule] ?? [])];
  }
}

/** Whether a plan still leaves the rule that another plan left, on the same side. */
const isLeft = (plan: PlotPlan, { rule, side }: Pick<PlanBreach, 'rule' | 'side'>) =>
  plan.breaches.some((one) => one.rule === rule && one.side === side);

const dueOf = (plan: PlotPlan, activity: Activity): Day | null => stepFor(plan, activity)?.due ?? null;
const plantOn = ({ steps }: PlotPlan): Day | null => steps[plantingStep(steps)]?.due ?? null;

type Draft = Omit<Remedy, 'on' | 'cost' | 'plantOn'>;

/** A way out, and the plan that it leads to. */
interface Way {
  readonly remedy: Remedy;
  readonly after: PlotPlan;
}

/**
 * Plans again with the way out and takes its day from that plan (`dayIn`); null when it has no such day, or when the
 * conflict stays or another comes.
 */
function tried(
  { season, plan, replan }: Search,
  draft: Draft,
  dayIn: (after: PlotPlan) => Day | null,
): Way | null {
  const cost = REMEDY_COSTS[draft.kind];
  const after = replan(withRemedy(season, { ...draft, on: plan.today, cost, plantOn: null }, plan));
  const on = dayIn(after);
  const clashes = after.conflicts.some(({ rules }) => rules.includes(draft.rule) || !turnsOn(plan, rules[0]));
  if (on === null || clashes) return null;
  const remedy: Remedy = { ...draft, on, cost, plantOn: plantOn(after) };
  return { remedy: hangsOnRain(after) ? { ...remedy, afterRain: true } : remedy, after };
}

/** Seed waits for rain that nobody can foretell. */
const hangsOnRain = ({ steps }: PlotPlan) =>
  steps.some(({ activity, waitsFor }) => activity === 'pregerminate' && waitsFor?.state === 'unknown');

/** Whether a plan has a conflict in which the same rule gives way. */
const turnsOn = ({ conflicts }: PlotPlan, rule: string | undefined) =>
  conflicts.some(({ rules }) => rules[0] === rule);

/** Where a nursery is growing: another one, whose seedlings will be young. */
function sowAfresh(search: Search, rule: string): Way | null {
  const state = stepFor(search.plan, 'sow-nursery')?.status;
  if (state !== 'done' && state !== 'started') return null;
  return tried(search, { kind: 'sow-afresh', rule }, (after) =>
    isLeft(after, { rule: 'seedling-age', side: 'hi' }) ? null : dueOf(after, 'sow-nursery'),
  );
}

const soakAgain = (search: Search) =>
  tried(search, { kind: 'soak-again', rule: 'pregerminate' }, (after) => dueOf(after, 'pregerminate'));

function plantOlder(search: Search): Way | null {
  const { plan, book } = search;
  const on = dueOf(plan, 'transplant');
  const sown = stepFor(plan, 'sow-nursery')?.on ?? null;
  const lost = plan.conflicts.some(({ rules }) => rules.includes('seedling-old'));
  if (on === null || sown === null || lost) return null;
  const ageDays = on - sown;
  const extra = extraSeedlings(book, ageDays, plan.crop.seedlingAge);
  const draft = { kind: 'plant-older', rule: 'seedling-age', ageDays, extraSeedlings: extra } as const;
  return { remedy: { ...draft, on, cost: REMEDY_COSTS['plant-older'], plantOn: on }, after: plan };
}

/** The first day on which the plot needs water that the canal does not bring; null when it brings all of it. */
function askWater(search: Search, rule: string): Way | null {
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

/** The first of these works that, done again, mends the breach and costs no rule as dear as the one that was left. */
function doAgain(search: Search, breach: PlanBreach, activities: readonly Activity[]): Way | null {
  const isDone = (activity: Activity) => stepFor(search.plan, activity)?.status === 'done';
  for (const activity of activities.every(isDone) ? activities : []) {
    const way = tried(search, { kind: 'do-again', rule: breach.rule, activity }, (after) =>
      isMended(search, breach, after) ? dueOf(after, activity) : null,
    );
    if (way) return way;
  }
  return null;
}

/** Whether a plan no longer leaves the rule, and leaves no other instead that is as dear. */
function isMended({ plan }: Search, breach: PlanBreach, after: PlotPlan): boolean {
  const isWorse = (one: PlanBreach) => !isLeft(plan, one) && one.cost.rank >= breach.cost.rank;
  return !isLeft(after, breach) && !after.breaches.some(isWorse);
}

/** More teams at one long work that is still to do, so that the rule is kept: the fewest that will do, at the longest work that helps. */
function moreTeams(search: Search, rule: string, breach?: PlanBreach): Way | null {
  const long = search.plan.steps.filter((step) => lengthOf(step) > 0);
  for (const { activity } of long.sort((a, b) => lengthOf(b) - lengthOf(a))) {
    const way = fewestTeams(search, rule, activity, breach);
    if (way) return way;
  }
  return null;
}

function fewestTeams(search: Search, rule: string, activity: Activity, breach?: PlanBreach): Way | null {
  const now = Math.ceil(teamsFor(search.book, search.season, activity));
  const dayIn = (after: PlotPlan) =>
    breach && !isMended(search, breach, after) ? null : dueOf(after, activity);
  const withTeams = (teams: number) => tried(search, { kind: 'more-teams', rule, activity, teams }, dayIn);
  let [few, many] = [now + 1, breach ? Math.max(MOST_TEAMS, TEAMS_TIMES * now) : TEAMS_AT_ALL];
  let best = withTeams(many);
  while (best && few < many) {
    const middle = Math.floor((few + many) / 2);
    const fewer = withTeams(middle);
    if (fewer) [best, many] = [fewer, middle];
    else few = middle + 1;
  }
  return best;
}

const lengthOf = (step: PlanStep): number =>
  step.doneBy !== null && step.due !== null ? step.doneBy - step.due : 0;

/** Nothing to plough with: flood without ploughing, where that plants sooner. */
function unploughed(search: Search): Way | null {
  const { season, plan } = search;
  const lacks = season.machineFrom !== undefined && season.machineFrom > plan.today;
  if (!lacks || season.way.tillage === 'none' || stepFor(plan, 'plough')?.status === 'done') return null;
  const later = plantOn(plan);
  return tried(search, { kind: 'change-way', rule: 'no-machine' }, (after) => {
    const sooner = plantOn(after);
    if (after.conflicts.some(({ rules }) => rules.includes('seedling-old'))) return null;
    return sooner !== null && later !== null && sooner < later ? dueOf(after, 'flood') : null;
  });
}

/** No better way: the step on its day all the same, at the cost of the rule that is left; out of step, the group is told. */
function goOn({ plan }: Search, { rule, cost, activity, round }: PlanBreach): Remedy[] {
  const on = stepFor(plan, activity, round ?? undefined)?.due ?? null;
  if (on === null) return [];
  const way = { rule, on, cost, plantOn: plantOn(plan) };
  return [rule === 'target' ? { kind: 'tell-group', ...way } : { kind: 'go-on', activity, ...way }];
}
