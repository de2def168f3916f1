/** The readings that a clause may turn into, and the day it names. */
import type { Activity, Stage } from '../agronomy/season.ts';
import { type Day, isoDay } from '../plan/day.ts';
import type { Bound } from './bind.ts';
import type {
  AskReading,
  Assumed,
  IntendReading,
  NotDoneReading,
  ReportReading,
  Unclear,
} from './reading.ts';
import { type Found, findDay, type Said } from './said-day.ts';

export const plotsOf = (bound: Bound): readonly string[] => bound.plots?.ids ?? [];

const IMPLIED: readonly Assumed[] = ['activity'];
const unique = (assumed: readonly Assumed[]): Assumed[] => [...new Set(assumed)];

export const notDone = (activity: Activity | null, plots: readonly string[]): NotDoneReading => ({
  kind: 'not-done',
  activity,
  plots,
  assumed: [],
});

export const askDates = (
  activity: Activity,
  plots: readonly string[],
  about: 'dates' | 'why' = 'dates',
): AskReading => ({
  kind: 'ask',
  about,
  activity,
  plots,
  assumed: [],
});

export type DayOutcome =
  | { readonly on: Day | null; readonly assumed: readonly Assumed[] }
  | { readonly unclear: Unclear };

/** The days of a clause as said. */
export const saidOf = (bound: Bound): Said[] => bound.days.map((day) => day.node.said as Said);

/** The one day of a clause; today, assumed, for a report that names none. */
export function dayOf(bound: Bound, past: boolean, today: Day): DayOutcome {
  const found = bound.days.map((day) => ({
    found: findDay(day.node.said as Said, past, today),
    raw: day.node.raw,
  }));
  for (const { found: one, raw } of found) {
    if ('problem' in one) return { unclear: { why: one.problem, choices: [], said: raw } };
  }
  const days = found.map((one) => one.found as Exclude<Found, { problem: unknown }>);
  const [first] = days;
  if (!first) return past ? { on: today, assumed: ['on'] } : { on: null, assumed: [] };
  if (days.some((day) => day.on !== first.on))
    return { unclear: { why: 'which-day', choices: [], said: bound.clause.said } };
  return first;
}

export function report(
  bound: Bound,
  activity: Activity,
  stage: Stage,
  on: Day | null,
  assumed: readonly Assumed[],
): ReportReading {
  return {
    kind: 'report',
    activity,
    stage,
    plots: plotsOf(bound),
    on: on === null ? null : isoDay(on),
    measures: bound.clause.measures,
    assumed: unique([...assumed, ...bound.assumed, ...(bound.clause.head?.implied ? IMPLIED : [])]),
  };
}

export function intend(bound: Bound, activity: Activity, today: Day): IntendReading {
  const day = dayOf(bound, false, today);
  const on = 'unclear' in day || day.on === null ? null : isoDay(day.on);
  const assumed = 'unclear' in day ? [] : day.assumed;
  return {
    kind: 'intend',
    activity,
    plots: plotsOf(bound),
    on,
    assumed: unique([...assumed, ...bound.assumed]),
  };
}

/** The report a clause would be, with today for a day that cannot be; for a numbered question. */
export function likely(bound: Bound, activity: Activity, stage: Stage, today: Day): ReportReading {
  const day = dayOf(bound, true, today);
  return 'unclear' in day
    ? report(bound, activity, stage, today, ['stage', 'on'])
    : report(bound, activity, stage, day.on, ['stage', ...day.assumed]);
}
