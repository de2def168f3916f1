/** Which reminders a plan calls for: the day before each step, when its last day nears, and when nothing was heard. */
import type { PlanStep, PlotPlan } from '../agronomy/plot-plan.ts';
import { figure, type Rulebook } from '../agronomy/rulebook.ts';
import type { Activity, Season } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { Reminder } from './effect.ts';

/** An overdue step is asked after this many times, then as often again at longer intervals; then the agent's list has it. */
const OVERDUE_TIMES = 3;
/** A last day is worth a word when it comes this many days after the best day, or later. */
const CLOSING_AFTER_DAYS = 3;

type Row = Omit<Reminder, 'seasonId'>;

/** The day on which a step first fell due: while nothing is heard, the plan moves it on, but the asking must not wait with it. */
export type FirstDue = (activity: Activity) => Day | null;

/** Reminders from tomorrow on, in the order of their days. What is due today or tomorrow was in the reply itself. */
export function remindersFor(
  plan: PlotPlan,
  seasonId: string,
  book: Rulebook,
  turns: Turns = {},
  firstDue?: FirstDue,
): readonly Reminder[] {
  const after = overdueDays(book);
  const rows = [
    ...plan.steps.flatMap((step) => stepRows(plan, step, after, firstDue?.(step.activity) ?? step.due)),
    ...rainRows(plan, book),
    ...turnRows(plan, turns),
  ];
  return rows.map((row) => ({ ...row, seasonId })).sort((a, b) => a.on - b.on);
}

/** What comes to the plot on a day of the group's. */
export type Turns = Pick<Season, 'waterTurn' | 'teamVisit'>;

/** The day before a turn, also when the work before it is not done. */
function turnRows({ steps, today }: PlotPlan, { waterTurn, teamVisit }: Turns): Row[] {
  const all: Row[] = [
    ...(waterTurn ? [{ on: waterTurn.from - 1, activity: 'flood', why: 'turn' as const }] : []),
    ...(teamVisit ? [{ on: teamVisit.from - 1, activity: teamVisit.activity, why: 'turn' as const }] : []),
  ];
  const isOpen = (activity: string) =>
    steps.some((step) => step.activity === activity && step.status !== 'done' && step.status !== 'started');
  return all.filter(({ on, activity }) => on > today && isOpen(activity));
}

function overdueDays(book: Rulebook): readonly number[] {
  const [every, later] = [figure(book, 'remind-overdue-every'), figure(book, 'remind-overdue-later')];
  const times = Array.from({ length: OVERDUE_TIMES }, (_, index) => index + 1);
  return [...times.map((time) => time * every), ...times.map((time) => OVERDUE_TIMES * every + time * later)];
}

/** While a step waits for rain, a long silence about it is asked after. */
function rainRows(plan: PlotPlan, book: Rulebook): Row[] {
  const waiting = plan.steps.find(({ waitsFor }) => waitsFor !== null);
  const every = figure(book, 'rainfall.ask-after');
  const heardOn = plan.water?.heardOn ?? plan.today;
  return waiting
    ? [{ on: Math.max(heardOn, plan.today) + every, activity: waiting.activity, why: 'rain' }]
    : [];
}

function stepRows(plan: PlotPlan, step: PlanStep, after: readonly number[], firstDue: Day | null): Row[] {
  const { activity, due, latest, status } = step;
  if (due === null || step.optional || status === 'done') return [];
  if (step.waitsFor) return [];
  const rows: Row[] = [];
  if (status !== 'started') rows.push({ on: due - 1, activity, why: 'tomorrow' });
  if (status !== 'open') {
    if (latest !== null && latest - due >= CLOSING_AFTER_DAYS)
      rows.push({ on: latest - 1, activity, why: 'closing' });
    rows.push(...after.map((days): Row => ({ on: (firstDue ?? due) + days, activity, why: 'overdue' })));
  }
  return rows.filter(({ on }, index) => on > plan.today && rows.findIndex((row) => row.on === on) === index);
}
