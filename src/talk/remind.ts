/** Reminders on their day: only what is still true is said, all plots of one phone in one text. */
import { COSTS_OF } from '../agronomy/calendar-gaps.ts';
import { type PlanStep, type PlotPlan, stepFor } from '../agronomy/plot-plan.ts';
import { figure } from '../agronomy/rulebook.ts';
import { ACTIVITIES, type Activity } from '../agronomy/season.ts';
import type { Effect, Reminder } from './effect.ts';
import { numbersFor } from './numbers.ts';
import { comesBefore } from './order.ts';
import { activityName, doWords, which, wordFor } from './phrases.ts';
import { type Planned, planned, remindAgain, remindEffects } from './planned.ts';
import { plotRuns } from './plot-runs.ts';
import type { Turns } from './reminders-for.ts';
import type { Sentence } from './turn.ts';
import { oldSeedlings } from './ways-out.ts';
import type { PlotWorld, World } from './world.ts';

/** Plans the reminders of every plot in the world, saying nothing. */
export function planReminders(world: World): { readonly effects: readonly Effect[] } {
  return {
    effects: remindEffects(
      world,
      world.plots.map((plot) => planned(world, plot)),
    ),
  };
}

/** Says the due reminders that still hold, and rewrites the reminders of every plot they name. */
export function remind(world: World, due: readonly Reminder[]): { readonly effects: readonly Effect[] } {
  const plans = world.plots
    .filter(({ seasonId }) => due.some((reminder) => reminder.seasonId === seasonId))
    .map((plot) => planned(world, plot));
  const sentences = told(world, plans, due);
  const lang = langOf(
    world,
    plans.map(({ plot }) => plot),
  );
  const say: Effect[] =
    sentences.length > 0 && !world.stopped ? [{ do: 'say', lang, saying: { sentences } }] : [];
  return { effects: [...remindAgain(world, plans), ...say] };
}

/** The language of the one whose plots these are; on a phone with several of them, of its first user. */
function langOf({ people, scheme }: World, plots: readonly PlotWorld[]): string {
  const owners = people.filter(({ id }) => plots.some(({ ownerId }) => ownerId === id));
  return (owners.length === 1 ? owners[0] : people[0])?.lang ?? scheme.languages[0] ?? 'en';
}

interface Telling {
  readonly why: Reminder['why'];
  readonly step: PlanStep;
  readonly plots: PlotWorld[];
}

function told(world: World, plans: readonly Planned[], due: readonly Reminder[]): Sentence[] {
  const tellings = new Map<string, Telling>();
  for (const { plot, season, plan } of plans) {
    const own = due.filter(({ seasonId }) => seasonId === plot.seasonId);
    for (const reminder of inOrder(own.filter((one) => !toldByTurn(one, own)))) {
      const step = stillTrue(world, season, plan, reminder);
      if (!step) continue;
      const last = reminder.why === 'closing' ? step.latest : '';
      const key = `${reminder.why} ${step.activity} ${step.due} ${last}`;
      const telling = tellings.get(key);
      // Of one kind several may be due at once, after days on which nothing could be sent.
      if (telling?.plots.includes(plot)) continue;
      if (telling) telling.plots.push(plot);
      else tellings.set(key, { why: reminder.why, step, plots: [plot] });
    }
  }
  return merged([
    ...questions(plans, tellings.size > 0),
    ...inWeight([...tellings.values()]).map((telling) => sentence(world, telling)),
  ]);
}

/** The group's day weighs most, what was asked more than a last day, a last day more than what is due tomorrow. */
const WEIGHT: readonly Reminder['why'][] = ['turn', 'overdue', 'closing', 'tomorrow', 'rain'];
const inWeight = (tellings: readonly Telling[]) =>
  [...tellings].sort((a, b) => WEIGHT.indexOf(a.why) - WEIGHT.indexOf(b.why));

/** The first sentence always stands; the others as far as one part has room, with the way to see all where that has room. */
function merged(sentences: readonly Sentence[]): Sentence[] {
  const [first, ...others] = sentences;
  if (!first) return [];
  return others.length === 0
    ? [first]
    : [first, ...others.map((one) => ({ ...one, spare: true })), { key: 'reminder.all', spare: 'last' }];
}

/** Seedlings that get too old while the field waits: said beside another reminder, all plots in one sentence. */
function questions(plans: readonly Planned[], beside: boolean): Sentence[] {
  const old = plans.flatMap((planned) => {
    const seedlings = oldSeedlings(planned);
    return seedlings ? [{ plot: planned.plot, age: seedlings.ageDays }] : [];
  });
  const [first] = old;
  if (!first || !beside) return [];
  const age = Math.max(...old.map((one) => one.age));
  return [
    {
      key: 'reminder.question',
      values: { which: which(old.map(({ plot }) => plot)), age, plot: first.plot.number },
    },
  ];
}

/** Earlier work was due by today and nobody said that it is done: that is asked, rather than told what follows. */
function waits(world: World, plan: PlotPlan, step: PlanStep): boolean {
  return plan.steps.some(
    ({ activity, status, due }) =>
      status !== 'done' &&
      due !== null &&
      due <= world.today &&
      comesBefore(world.rulebook, activity, step.activity),
  );
}

/** The day before a turn says what the day before its step would. */
const toldByTurn = ({ activity, why }: Reminder, own: readonly Reminder[]) =>
  why === 'tomorrow' && own.some((one) => one.why === 'turn' && one.activity === activity);

const place = ({ activity }: Reminder) => ACTIVITIES.indexOf(activity as Activity);
const inOrder = (due: readonly Reminder[]) => [...due].sort((a, b) => place(a) - place(b));

/** The step that a reminder speaks of, if what it says still holds today; null when it does not. */
function stillTrue(world: World, turns: Turns, plan: PlotPlan, { activity, why }: Reminder): PlanStep | null {
  const step =
    plan.steps.find((one) => one.activity === activity && one.status !== 'done') ??
    stepFor(plan, activity as Activity);
  if (!step || step.status === 'done' || step.due === null) return null;
  switch (why) {
    case 'tomorrow':
      return step.status !== 'started' && step.due === world.today + 1 && !waits(world, plan, step)
        ? step
        : null;
    case 'overdue':
      return step.due <= world.today && (step.status === 'next' || step.status === 'started') ? step : null;
    case 'closing':
      return step.latest === world.today + 1 ? step : null;
    case 'rain':
      return step.waitsFor && silentOnRain(world, plan) ? step : null;
    case 'turn': {
      const turn = activity === 'flood' ? turns.waterTurn : turns.teamVisit;
      return step.status !== 'started' && turn?.from === world.today + 1 ? step : null;
    }
  }
}

/** Nothing was heard of rain for as long as is asked after. */
function silentOnRain({ today, rulebook }: World, { water }: PlotPlan): boolean {
  return water?.heardOn == null || today - water.heardOn >= figure(rulebook, 'rainfall.ask-after');
}

function sentence(world: World, { why, step, plots }: Telling): Sentence {
  const { activity } = step;
  const due = step.due ?? world.today;
  const words = { which: which(plots), do: doWords(world.rulebook, activity, wayOf(plots)) };
  switch (why) {
    case 'tomorrow':
      return { key: 'reminder.tomorrow', values: { ...words, day: { day: due } } };
    case 'turn': {
      const values = { which: which(plots), day: { day: world.today + 1 } };
      return activity === 'flood'
        ? { key: 'reminder.turn-water', values }
        : { key: 'reminder.turn-team', values: { ...values, activity: activityName(activity) } };
    }
    case 'closing':
      return closing(world, step, plots);
    case 'rain':
      return { key: 'rain.ask', values: { which: which(plots), ...numbersFor(world.rulebook, 'rain.ask') } };
    case 'overdue': {
      const plot = plotRuns(plots.map(({ number }) => number));
      const by =
        step.latest === null || step.latest <= world.today
          ? { key: 'day.soon' }
          : { key: 'day.by', values: { day: { day: step.latest } } };
      return {
        key: 'reminder.overdue',
        values: { ...words, activity: activityName(activity), word: wordFor(activity), plot, due: by },
      };
    }
  }
}

/** Plots that share a telling are grown alike. */
const wayOf = ([plot]: readonly PlotWorld[]) => plot?.season.way ?? { water: 'irrigated' as const };

/** The last day, with what it costs to miss it: the cost of the rule at the far end of the chain that sets the day. */
function closing({ rulebook }: World, step: PlanStep, plots: readonly PlotWorld[]): Sentence {
  const day = { day: step.latest ?? step.due ?? 0 };
  const values = { which: which(plots), activity: activityName(step.activity), day };
  const last = step.latestBecause.findLast((name) => !name.includes(':'));
  const cost = COSTS_OF[last ?? '']?.hi ?? rulebook.rules.find(({ name }) => name === last)?.costHi;
  if (!cost) return { key: 'reminder.closing', values };
  return { key: 'reminder.closing-cost', values: { ...values, cost: { key: `cost.${cost.name}` } } };
}
