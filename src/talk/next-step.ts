/** Says what comes next: the step, its day, one figure; plots with the same next step are told together. */
import { nextStep, type PlanStep, type PlotPlan } from '../agronomy/plot-plan.ts';
import type { Message } from '../say/message.ts';
import { caution } from './cautions.ts';
import { activityName, doWords, dueWords, tipFor, which, wordFor } from './phrases.ts';
import type { Planned } from './planned.ts';
import { type Part, type Sentence, spare } from './turn.ts';
import type { World } from './world.ts';

/** More groups than this are not told in one text. */
const MOST_GROUPS = 4;
/** "Not after …" is said when the last day is this near to the best day. */
const LATEST_WITHIN_DAYS = 10;

/** One plot, or several with the same next step, in full; several different ones in a line each. */
export function tellNext(world: World, plans: readonly Planned[]): Part {
  const groups = groupByNext(plans);
  const [first] = groups;
  if (!first) return { say: [] };
  const part = groups.length === 1 ? inFull(world, first) : inLines(world, groups);
  const steps = groups.flatMap(([{ plan, season }]) => {
    const step = nextStep(plan);
    return step && step.due !== null && step.due <= world.today + 1
      ? [{ activity: step.activity, tillage: season.way.tillage }]
      : [];
  });
  const care = caution(world, steps);
  return { ...part, say: [...part.say, ...care.say], effects: care.effects ?? [] };
}

type Group = readonly [Planned, ...Planned[]];

function groupByNext(plans: readonly Planned[]): readonly Group[] {
  const groups = new Map<string, Planned[]>();
  for (const planned of plans) {
    const step = nextStep(planned.plan) ?? underWay(planned.plan);
    const key = step
      ? `${step.activity} ${step.round} ${step.due} ${step.doneBy} ${secondStep(planned.plan)?.activity}`
      : 'over';
    groups.set(key, [...(groups.get(key) ?? []), planned]);
  }
  return [...groups.values()] as unknown as readonly Group[];
}

const underWay = (plan: PlotPlan) => plan.steps.find(({ status }) => status === 'started') ?? null;

/** The step that follows the next one. */
function secondStep(plan: PlotPlan): PlanStep | null {
  const open = plan.steps.filter(
    ({ status, optional, due }) => status === 'open' && !optional && due !== null,
  );
  return open.reduce<PlanStep | null>(
    (first, step) => (first && (first.due ?? 0) <= (step.due ?? 0) ? first : step),
    null,
  );
}

function inFull(world: World, group: Group): Part {
  const [{ plan, plot }] = group;
  const plots = group.map((planned) => planned.plot);
  const going = underWay(plan);
  const step = nextStep(plan);
  const topicPlotId = plot.id;
  const say: Sentence[] = [];
  if (going) say.push(...goingOn(plots, going));
  if (!step && !going) return { say: [{ key: 'next.over', values: { which: which(plots) } }], topicPlotId };
  if (step?.due != null) {
    say.push(
      { key: 'next.one', values: stepValues(world, step, step.due) },
      ...details(world, plan, step, step.due),
    );
    const second = secondStep(plan);
    if (second?.due != null && second.activity !== step.activity) {
      say.push(spare('next.then', stepValues(world, second, second.due)));
    }
  }
  return { say, topicPlotId };
}

function goingOn(plots: Parameters<typeof which>[0], step: PlanStep): Sentence[] {
  const values = { which: which(plots), activity: activityName(step.activity) };
  const plot = plots[0]?.number ?? '';
  return [{ key: 'next.going-on', values }, spare('next.finish', { word: wordFor(step.activity), plot })];
}

const stepValues = (world: World, { activity }: PlanStep, due: number): Record<string, Message> => ({
  do: doWords(world.rulebook, activity),
  due: dueWords(activity, due, world.today),
});

/** What gave way for this step, how long it takes, how it is done, and its last day. */
function details(world: World, plan: PlotPlan, step: PlanStep, due: number): Sentence[] {
  const say: Sentence[] = lateness(world, plan, step);
  if (step.doneBy !== null)
    say.push(spare('next.work', { count: step.doneBy - due + 1, day: { day: step.doneBy } }));
  const tip = tipFor(world, plan, step);
  if (tip) say.push({ ...tip, spare: true });
  if (step.latest !== null && step.latest > due && step.latest - due <= LATEST_WITHIN_DAYS) {
    say.push(spare('next.latest', { latest: { day: step.latest } }));
  }
  return say;
}

/** The breach that weighs on this step, or on planting in step with the group. */
function lateness(world: World, plan: PlotPlan, step: PlanStep): Sentence[] {
  const own = plan.breaches.find(({ rule, side }) =>
    world.rulebook.rules.some(
      (one) => one.name === rule && (side === 'hi' ? one.to : one.from).activity === step.activity,
    ),
  );
  if (own) {
    const key = own.side === 'hi' ? 'late.step' : 'late.early';
    return [{ key, values: { count: own.byDays, cost: { key: `cost.${own.cost.name}` } } }];
  }
  const group = plan.breaches.find(({ rule, side }) => rule === 'target' && side === 'hi');
  return group ? [spare('late.group', { count: group.byDays })] : [];
}

function inLines(world: World, groups: readonly Group[]): Part {
  const say: Sentence[] = groups.slice(0, MOST_GROUPS).map((group): Sentence => {
    const plots = group.map((planned) => planned.plot);
    const going = underWay(group[0].plan);
    const step = nextStep(group[0].plan);
    if (going)
      return {
        key: 'next.going-on',
        values: { which: which(plots), activity: activityName(going.activity) },
      };
    if (step?.due == null) return { key: 'next.over', values: { which: which(plots) } };
    return { key: 'next.plot', values: { which: which(plots), ...stepValues(world, step, step.due) } };
  });
  const more = groups.slice(MOST_GROUPS).flat().length;
  if (more > 0) say.push({ key: 'next.more', values: { count: more } });
  return { say, topicPlotId: groups[0]?.[0].plot.id ?? '' };
}
