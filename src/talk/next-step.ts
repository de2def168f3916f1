/** Says what comes next: the step, its day, one figure. The field's step and the nursery's are both told: they run side by side. */
import { plantingStep } from '../agronomy/frame.ts';
import type { PlanStep, PlotPlan } from '../agronomy/plot-plan.ts';
import type { Activity } from '../agronomy/season.ts';
import type { Message } from '../say/message.ts';
import { type Ahead, type Aside, ahead } from './ahead.ts';
import { caution } from './cautions.ts';
import { rainHead, rainLine } from './next-rain.ts';
import { activityName, doWords, dueWords, tipFor, which, wordFor } from './phrases.ts';
import type { Planned } from './planned.ts';
import { overWords } from './season-over.ts';
import { type Part, type Sentence, spare } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** More lines than this are not told in one text. */
const MOST_LINES = 4;
/** "Not after …" is said when the last day is this near to the best day. */
const LATEST_WITHIN_DAYS = 10;

export interface Manner {
  /** The activity that was just reported: its own line of work is told first. */
  readonly after?: Activity;
  /** Name the plots, where nothing before it has. */
  readonly named?: boolean;
}

type Group = { readonly first: Planned; readonly all: readonly Planned[]; readonly ahead: Ahead };

/** One plot, or several with the same steps ahead, in full; several different ones in a line each. */
export function tellNext(world: World, plans: readonly Planned[], manner: Manner = {}): Part {
  const groups = groupsOf(world, plans, manner.after);
  const [only] = groups;
  if (!only) return { say: [] };
  if (groups.length > 1) return inLines(world, groups, manner);
  const part = inFull(world, only, manner);
  const { first, ahead: steps } = only;
  const soon = [steps.step, steps.following].flatMap((step) =>
    step?.due != null && step.due <= world.today + 1 && !step.waitsFor
      ? [{ activity: step.activity, tillage: first.season.way.tillage }]
      : [],
  );
  const care = caution(world, soon);
  return { ...part, say: [...part.say, ...care.say], effects: care.effects ?? [] };
}

function groupsOf(world: World, plans: readonly Planned[], after: Activity | undefined): readonly Group[] {
  const groups = new Map<string, { first: Planned; all: Planned[]; ahead: Ahead }>();
  for (const planned of plans) {
    const steps = ahead(planned.plan, after);
    const key = JSON.stringify([sentencesFor(world, planned, steps), planned.plan.fallowUntil]);
    const group = groups.get(key);
    if (group) group.all.push(planned);
    else groups.set(key, { first: planned, all: [planned], ahead: steps });
  }
  return [...groups.values()];
}

const plotsOf = ({ all }: Group) => all.map(({ plot }) => plot);

function inFull(world: World, group: Group, manner: Manner): Part {
  const { plot } = group.first;
  const { going, step } = group.ahead;
  const plots = plotsOf(group);
  if (!step && !going)
    return {
      say: [overWords(world.rulebook, group.first, plots)],
      topic: { plotId: plot.id, activity: null },
    };
  const say: Sentence[] = going ? goingOn(plots, going, going.activity === manner.after) : [];
  const [head, ...rest] = sentencesFor(world, group.first, group.ahead);
  if (head) say.push(manner.named ? withPlots(head, plots) : head);
  return { say: [...say, ...rest], topic: { plotId: plot.id, activity: (step ?? going)?.activity ?? null } };
}

/** Heads of the advice, and the same with their plots, for texts in which no echo has named them. */
const WITH_PLOTS: Readonly<Record<string, string>> = {
  'next.one': 'next.plot',
  'next.one-latest': 'next.plot-latest',
  'next.rain': 'next.rain-plot',
  'next.rain-expected': 'next.rain-expected-plot',
};

function withPlots({ key, values }: Sentence, plots: readonly PlotWorld[]): Sentence {
  const named = WITH_PLOTS[key];
  return named
    ? { key: named, values: { ...values, which: which(plots) } }
    : { key, ...(values && { values }) };
}

/** All that is said of the steps ahead, the next one first, without the plots: plots of which the same is said share it. */
function sentencesFor(world: World, planned: Planned, { step, following, also, rider }: Ahead): Sentence[] {
  if (!step) return [];
  const say: Sentence[] = [headFor(world, planned, step), ...details(world, planned, step)];
  if (rider && !step.waitsFor) say.push({ key: 'next.also', values: words(world, planned, rider) });
  if (following && step.waitsFor?.state !== 'unknown')
    say.push(...aside(world, 'next.then', planned, following));
  if (also) say.push(...aside(world, 'next.also', planned, also));
  if (planned.plan.lacksHarvestDate && stands(planned))
    say.push({ key: 'next.harvest-date', values: { plot: planned.plot.number } });
  return say;
}

/** The crop is in the field. */
const stands = ({ plan: { steps } }: Planned): boolean => steps[plantingStep(steps)]?.status === 'done';

/** "Next: flood to 10 cm today, not after Thu 4 Mar." */
function headFor(world: World, planned: Planned, step: PlanStep): Sentence {
  const { latest, due, waitsFor } = step;
  if (waitsFor) return rainHead(world, planned, step, waitsFor);
  const near = latest !== null && due !== null && latest > due && latest - due <= LATEST_WITHIN_DAYS;
  const values = words(world, planned, step);
  return near
    ? { key: 'next.one-latest', values: { ...values, latest: { day: latest } } }
    : { key: 'next.one', values };
}

/** What waits for rain is told at the head or not at all. */
function aside(world: World, key: string, planned: Planned, { pressing, ...step }: Aside): Sentence[] {
  if (step.waitsFor) return [];
  const values = words(world, planned, step);
  if (!pressing) return [spare(key, values)];
  const tip = tipFor(world, planned, step);
  const lateness = ownLateness(world, planned.plan, step).map((one) => ({ ...one, spare: true }));
  const say: Sentence[] = [{ key, values }, ...lateness];
  return tip ? [...say, { ...tip, spare: true }] : say;
}

function goingOn(plots: readonly PlotWorld[], step: PlanStep, echoed: boolean): Sentence[] {
  const finish = spare('next.finish', { word: wordFor(step.activity), plot: plots[0]?.number ?? '' });
  if (echoed) return [finish];
  return [
    { key: 'next.going-on', values: { which: which(plots), activity: activityName(step.activity) } },
    finish,
  ];
}

const words = (
  world: World,
  { season }: Planned,
  { activity, due }: Pick<PlanStep, 'activity' | 'due'>,
): Record<string, Message> => ({
  do: doWords(world.rulebook, activity, season.way),
  due: dueWords(activity, due ?? world.today, world.today),
});

/** What gave way for this step, how long it takes, how it is done, and its last day. */
function details(world: World, planned: Planned, step: PlanStep): Sentence[] {
  const due = step.due ?? world.today;
  if (step.waitsFor) return [step.waitsFor.falseStart ? { key: 'next.rain-dry' } : spare('next.rain-tell')];
  const say: Sentence[] = lateness(world, planned.plan, step);
  if (step.doneBy !== null)
    say.push(spare('next.work', { count: step.doneBy - due + 1, day: { day: step.doneBy } }));
  const tip = tipFor(world, planned, step);
  if (tip) say.push({ ...tip, spare: true });
  if (planned.season.way.water === 'rain-fed' && step.activity === 'soak')
    say.push(spare('next.bunds-closed', { plot: planned.plot.number }));
  return say;
}

/** The breach that weighs on this step, or on planting in step with the group. */
function lateness(world: World, plan: PlotPlan, step: PlanStep): Sentence[] {
  const own = ownLateness(world, plan, step);
  const group = plan.breaches.find(({ rule, side }) => rule === 'target' && side === 'hi');
  return own.length === 0 && group ? [spare('late.group', { count: group.byDays })] : own;
}

/** Appointments that the group has made for the plot. */
const TURNS: readonly string[] = ['water-turn', 'team-visit'];

/** What it costs that this step comes too late or too soon; one that is still to come is said to be later than is best. */
function ownLateness(world: World, plan: PlotPlan, step: PlanStep): Sentence[] {
  const own = plan.breaches.find(
    ({ rule, activity }) =>
      world.rulebook.rules.some((one) => one.name === rule && one.to.activity === step.activity) ||
      (TURNS.includes(rule) && activity === step.activity),
  );
  if (!own) return [];
  const late = (step.due ?? world.today) <= world.today ? 'late.step' : 'late.later';
  const key = own.side === 'hi' ? late : 'late.early';
  return [{ key, values: { count: own.byDays, cost: { key: `cost.${own.cost.name}` } } }];
}

/** A line for each first step and day; plots that differ only in what follows share it. */
function inLines(world: World, groups: readonly Group[], manner: Manner): Part {
  const lines = new Map<string, { group: Group; plots: PlotWorld[] }>();
  for (const group of groups) {
    const { going, step } = group.ahead;
    const key = going ? `going ${going.activity}` : `${step?.activity} ${step?.due}`;
    const known = lines.get(key);
    if (known) known.plots.push(...plotsOf(group));
    else lines.set(key, { group, plots: plotsOf(group) });
  }
  const all = [...lines.values()];
  const say = all
    .slice(0, MOST_LINES)
    .map(({ group, plots }) =>
      all.length === 1 && group.ahead.step && !manner.named
        ? headFor(world, group.first, group.ahead.step)
        : lineFor(world, group, inNumber(plots)),
    );
  const more = all.slice(MOST_LINES).flatMap(({ plots }) => plots).length;
  if (more > 0) say.push({ key: 'next.more', values: { count: more } });
  const [first] = groups;
  return first
    ? { say, topic: { plotId: first.first.plot.id, activity: first.ahead.step?.activity ?? null } }
    : { say };
}

const inNumber = (plots: readonly PlotWorld[]) =>
  [...plots].sort((a, b) => Number(a.number) - Number(b.number));

function lineFor(world: World, { first, ahead: steps }: Group, plots: readonly PlotWorld[]): Sentence {
  const { going, step } = steps;
  if (going)
    return { key: 'next.going-on', values: { which: which(plots), activity: activityName(going.activity) } };
  if (!step) return overWords(world.rulebook, first, plots);
  if (step.waitsFor) return rainLine(world, first, step, plots);
  return { key: 'next.plot', values: { which: which(plots), ...words(world, first, step) } };
}
