/** What one clause comes to: a report or a plan with its day and plots, or a question where these cannot be told. */
import type { Activity, Stage } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { Bound } from './bind.ts';
import { dayOf, intend, report } from './possible-readings.ts';
import type { Assumed, Reading, ReportReading, Unclear } from './reading.ts';
import { findDay } from './said-day.ts';
import { isPartOfSeveral } from './stage-said.ts';

/** A reading, or why there is none; null for a clause that says nothing of its own. */
export type Outcome = { readonly reading: Reading } | { readonly unclear: Unclear } | null;

/** Nothing is taken as said; these are the readings it could have. */
export const unsure = (
  choices: readonly Reading[],
  why: Unclear['why'] = 'two-meanings',
  said?: string,
): Outcome => ({
  unclear: said === undefined ? { why, choices } : { why, choices, said },
});

/** A day that no calendar has; null for none. */
export const impossible = (bound: Bound, today: Day): Outcome => {
  const day = dayOf(bound, false, today);
  return 'unclear' in day && day.unclear.why === 'impossible-date' ? day : null;
};

/** A plan, unless its day or plots cannot be told. */
export function intention(bound: Bound, activity: Activity, today: Day): Outcome {
  const day = dayOf(bound, false, today);
  if ('unclear' in day) return { unclear: { ...day.unclear, choices: [] } };
  const reading = intend(bound, activity, today);
  if (bound.plots?.puzzle || bound.clause.morePlots)
    return unsure([{ ...reading, plots: [] }], 'which-plot', bound.clause.said);
  return { reading };
}

/** A report, unless its day or plots cannot be told. */
export function reported(
  bound: Bound,
  activity: Activity,
  stage: Stage,
  assumed: readonly Assumed[],
  today: Day,
): Outcome {
  const { clause } = bound;
  const day = dayOf(bound, true, today);
  if ('unclear' in day)
    return { unclear: { ...day.unclear, choices: otherDay(bound, activity, stage, day.unclear, today) } };
  const reading = report(bound, activity, stage, day.on, [...assumed, ...day.assumed]);
  if (bound.plots?.puzzle || clause.morePlots || bound.unsurePlots || isPartOfSeveral(bound))
    return unsure([{ ...reading, plots: [] }], 'which-plot', clause.said);
  // "ploughed until Friday": what ended on a day was not simply done today.
  const ends = stage === 'finished' && clause.until !== null;
  if (bound.unsureDay || clause.brokenDay || ends) return unsure([reading], 'which-day', clause.said);
  if (bound.plots?.maybeDay) return plotOrDay(bound, reading, today);
  return { reading };
}

function otherDay(bound: Bound, activity: Activity, stage: Stage, unclear: Unclear, today: Day): Reading[] {
  if (unclear.why === 'future-date') return [intend(bound, activity, today)];
  return unclear.why === 'which-day' ? [{ ...report(bound, activity, stage, null, ['stage']) }] : [];
}

/** "ploughed on 5": plot 5, or the 5th. */
function plotOrDay(bound: Bound, reading: ReportReading, today: Day): Outcome {
  const spreads =
    ['manure', 'basal', 'topdress'].includes(reading.activity) || bound.clause.head?.form === 'doing';
  const found = findDay(
    { kind: 'date', day: Number(reading.plots[0]), month: null, year: null },
    true,
    today,
  );
  if (spreads || bound.days.length > 0 || 'problem' in found || found.on === null) return { reading };
  const other = { ...report(bound, reading.activity, 'finished', found.on, ['stage', 'month']), plots: [] };
  return unsure([reading, other]);
}
