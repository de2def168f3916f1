/** Which reminders a plan calls for: the day before each step, when its last day nears, and when nothing was heard. */
import type { PlanStep, PlotPlan } from '../agronomy/plot-plan.ts';
import { figure, type Rulebook } from '../agronomy/rulebook.ts';
import type { Reminder } from './effect.ts';

/** An overdue step is asked after this many times, then the agent's list has it. */
const OVERDUE_TIMES = 3;
/** A last day is worth a word when it comes this many days after the best day, or later. */
const CLOSING_AFTER_DAYS = 3;

/** Reminders from tomorrow on, in the order of their days. What is due today or tomorrow was in the reply itself. */
export function remindersFor(plan: PlotPlan, seasonId: string, book: Rulebook): readonly Reminder[] {
  const every = figure(book, 'remind-overdue-every');
  const rows = plan.steps.flatMap((step) => stepReminders(plan, step, every));
  return rows.map((row) => ({ ...row, seasonId })).sort((a, b) => a.on - b.on);
}

function stepReminders(plan: PlotPlan, step: PlanStep, every: number): Omit<Reminder, 'seasonId'>[] {
  const { activity, due, latest, status } = step;
  if (due === null || step.optional || status === 'done') return [];
  const rows: Omit<Reminder, 'seasonId'>[] = [];
  if (status !== 'started' && due - 1 > plan.today) rows.push({ on: due - 1, activity, why: 'tomorrow' });
  if (status === 'open') return rows;
  if (latest !== null && latest - due >= CLOSING_AFTER_DAYS)
    rows.push({ on: latest - 1, activity, why: 'closing' });
  for (let time = 1; time <= OVERDUE_TIMES; time++)
    rows.push({ on: due + time * every, activity, why: 'overdue' });
  return rows.filter(({ on }, index) => on > plan.today && rows.findIndex((row) => row.on === on) === index);
}
