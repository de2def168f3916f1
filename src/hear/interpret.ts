/** Decides what a clause is: a report, its denial, a plan, a question; and asks back wherever it could be two of them. */
import type { Activity } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { Bound } from './bind.ts';
import { impossible, intention, type Outcome, reported, unsure } from './outcome.ts';
import { askDates, intend, likely, notDone, plotsOf, saidOf } from './possible-readings.ts';
import type { Reading } from './reading.ts';
import { type Said, saysFuture, saysPast } from './said-day.ts';
import { isPartOrdered, stageSaid } from './stage-said.ts';
import { untilDay } from './trouble-reading.ts';

/** "nearly done ploughing": begun on a day that was not said; a day beside it is that of the texting or of the end. */
function nearing(outcome: Outcome): Outcome {
  if (!outcome || !('reading' in outcome) || outcome.reading.kind !== 'report') return outcome;
  const assumed = outcome.reading.assumed.filter((one) => one === 'plots');
  return { reading: { ...outcome.reading, on: null, assumed } };
}

/** "plot 3 cut": no order puts the plot first. */
const behindPlots = (clause: Bound['clause']) => clause.plotsFirst && clause.plots !== null;

const SPREAD: readonly Activity[] = ['manure', 'basal', 'topdress'];

/** "urea plot 3 1 bag": a note of what was put where, today where it names no other day. */
const isNoted = ({ clause, plots }: Bound, activity: Activity, says: readonly Said[]): boolean =>
  clause.head?.form === 'naming' &&
  clause.listed &&
  (!clause.meantFor || says.length > 0) &&
  clause.marks.size === 0 &&
  plots !== null &&
  clause.measures.amount !== undefined &&
  SPREAD.includes(activity) &&
  says.every((said) => said.kind === 'offset' && said.days === 0 && !said.later);

/** A verb that could be an order, a wish or a report: "plough plot 3". */
function bareVerb(bound: Bound, activity: Activity, today: Day): Outcome {
  const { clause } = bound;
  const says = saidOf(bound);
  const ask = askDates(activity, plotsOf(bound));
  const wrong = impossible(bound, today);
  if (wrong) return wrong;
  if (clause.ending === '!' || clause.marks.has('please'))
    return unsure([ask, likely(bound, activity, 'finished', today)]);
  const past = clause.head?.form === 'same' && clause.marks.has('perfect');
  if (!past && says.some((said) => saysFuture(said, today))) return intention(bound, activity, today);
  // "I have urea for plot 3" puts none on.
  const doer =
    (clause.marks.has('perfect') && clause.head?.form !== 'naming') ||
    (clause.head?.form === 'same' &&
      (clause.marks.has('self') || clause.thingFirst || clause.head.implied === true || behindPlots(clause)));
  const named = bound.plots !== null || clause.marks.has('self');
  const measured = named && Object.keys(clause.measures).length > 0 && clause.head?.form !== 'naming';
  const saysNothing = clause.head?.form === 'linking';
  const noted = isNoted(bound, activity, says);
  if (!saysNothing && (doer || measured || noted || says.some((said) => saysPast(said, today)))) {
    return reported(bound, activity, 'finished', ['stage'], today);
  }
  if (says.some((said) => said.kind === 'either')) {
    const both = [likely(bound, activity, 'finished', today), intend(bound, activity, today)];
    return unsure(both, 'which-day', clause.said);
  }
  if (says.some((said) => said.kind === 'weekday')) {
    return unsure([likely(bound, activity, 'finished', today), intend(bound, activity, today)]);
  }
  return unsure([likely(bound, activity, 'finished', today), ask]);
}

/** "ploughing plot 3": under way, unless a day says otherwise. */
function underWay(bound: Bound, activity: Activity, today: Day): Outcome {
  const says = saidOf(bound);
  if (says.some((said) => saysFuture(said, today) || (said.kind === 'weekday' && !saysPast(said, today)))) {
    return intention(bound, activity, today);
  }
  if (says.some((said) => said.kind === 'offset' && said.later))
    return unsure([likely(bound, activity, 'started', today), intend(bound, activity, today)]);
  if (says.some((said) => saysPast(said, today)) || bound.clause.marks.has('perfect')) {
    const both = [likely(bound, activity, 'finished', today), likely(bound, activity, 'started', today)];
    return impossible(bound, today) ?? unsure(both);
  }
  return reported(bound, activity, 'started', ['stage'], today);
}

/** "je laboure la 3": under way or to come, which only a day can tell. */
function present(bound: Bound, activity: Activity, today: Day): Outcome {
  const says = saidOf(bound);
  const wrong = impossible(bound, today);
  if (wrong) return wrong;
  if (says.some((said) => saysPast(said, today)) || bound.clause.marks.has('perfect'))
    return unsure([likely(bound, activity, 'finished', today), likely(bound, activity, 'started', today)]);
  const coming = says.some((said) => saysFuture(said, today) || said.kind === 'weekday');
  return coming
    ? intention(bound, activity, today)
    : unsure([likely(bound, activity, 'started', today), intend(bound, activity, today)]);
}

/** "করছি" is under way or done; a day that is over tells that it is done. */
function openForm(bound: Bound, activity: Activity, today: Day): Outcome {
  const says = saidOf(bound);
  if (says.some((said) => saysPast(said, today)))
    return reported(bound, activity, 'finished', ['stage'], today);
  if (says.some((said) => saysFuture(said, today))) return intention(bound, activity, today);
  const choices = [likely(bound, activity, 'finished', today), likely(bound, activity, 'started', today)];
  return impossible(bound, today) ?? unsure(choices);
}

/** "we start ploughing tomorrow" is a plan; "on Monday" could be either. */
function comingStart(bound: Bound, activity: Activity, today: Day): Outcome {
  const says = saidOf(bound);
  if (says.some((said) => saysFuture(said, today))) return intention(bound, activity, today);
  const either =
    bound.clause.stages.includes('starting') &&
    says.some((said) => said.kind === 'weekday' && !saysPast(said, today));
  return either ? unsure([likely(bound, activity, 'started', today), intend(bound, activity, today)]) : null;
}

/**
 * "plot 3 flooded until Friday": what is done has no end that is to come. With a doer or an object ("we flooded plot 3
 * until Friday"), or an end that is over, it is asked.
 */
function lasts(
  bound: Bound,
  { what, deed }: NonNullable<Bound['clause']['lasting']>,
  activity: Activity,
  today: Day,
): Outcome {
  const { stages, until } = bound.clause;
  const end = untilDay(until, today);
  const trouble: Reading = { kind: 'trouble', what, plots: plotsOf(bound), until: end, assumed: [] };
  const plain = end !== null && stages.length === 0 && bound.days.length === 0;
  if (!plain || deed || bound.plots?.puzzle || bound.clause.morePlots)
    return unsure([trouble, likely(bound, activity, 'finished', today)]);
  return { reading: trouble };
}

function stated(bound: Bound, activity: Activity, today: Day): Outcome {
  const { clause } = bound;
  if (clause.lasting && clause.until) return lasts(bound, clause.lasting, activity, today);
  const stage = stageSaid(bound);
  const form = clause.head!.form;
  const ordered = clause.marks.has('please') ? form !== 'done' : clause.ending === '!' && form === 'plain';
  if (stage === 'both') {
    return unsure([likely(bound, activity, 'finished', today), likely(bound, activity, 'started', today)]);
  }
  if (form === 'naming' && saidOf(bound).some((said) => said.kind === 'either'))
    return bareVerb(bound, activity, today);
  if (stage && isPartOrdered(bound))
    return unsure([likely(bound, activity, stage, today), askDates(activity, plotsOf(bound))]);
  if (stage === 'started' && form !== 'done') {
    const coming = comingStart(bound, activity, today);
    if (coming) return coming;
  }
  if (stage && !ordered) {
    const outcome = reported(bound, activity, stage, [], today);
    return stage === 'started' && clause.stages.includes('nearly') ? nearing(outcome) : outcome;
  }
  if (form === 'done') return reported(bound, activity, 'finished', ['stage'], today);
  if (form === 'present') return present(bound, activity, today);
  if (form === 'going' && !ordered) return underWay(bound, activity, today);

  if (form === 'open') return openForm(bound, activity, today);
  return form === 'doing' && !ordered ? underWay(bound, activity, today) : bareVerb(bound, activity, today);
}

function denied(bound: Bound, activity: Activity, today: Day): Outcome {
  const { clause } = bound;
  const reading = notDone(activity, plotsOf(bound));
  if (bound.plots?.puzzle || clause.morePlots)
    return unsure([notDone(activity, [])], 'which-plot', clause.said);
  if (clause.marks.has('question')) return { reading: askDates(activity, plotsOf(bound)) };
  const doubtful = clause.marks.has('doubt') && clause.head?.form === 'done';
  return doubtful ? unsure([likely(bound, activity, 'finished', today), reading]) : { reading };
}

function asked(bound: Bound, activity: Activity, today: Day): Outcome {
  const { clause } = bound;
  const ask = askDates(activity, plotsOf(bound), clause.ask === 'why' ? 'why' : 'dates');
  if (clause.marks.has('question')) return { reading: ask };
  const maybeReport = clause.head!.form === 'done' || clause.stages.length > 0;
  return maybeReport ? unsure([likely(bound, activity, 'finished', today), ask]) : { reading: ask };
}

const isFuture = (bound: Bound) =>
  bound.clause.marks.has('future') || bound.clause.marks.has('want') || bound.clause.head?.form === 'future';

function one(bound: Bound, activity: Activity, today: Day): Outcome {
  const { marks, ending, head, strange } = bound.clause;
  if (marks.has('if')) return unsure([askDates(activity, plotsOf(bound)), intend(bound, activity, today)]);
  if (marks.has('question') || ending === '?') return asked(bound, activity, today);
  if (marks.has('not') || marks.has('nothing') || head!.form === 'not') return denied(bound, activity, today);
  if (isFuture(bound)) return intention(bound, activity, today);
  if (marks.has('need')) {
    const coming = saidOf(bound).some((said) => saysFuture(said, today) || said.kind === 'weekday');
    return coming ? intention(bound, activity, today) : denied(bound, activity, today);
  }
  if (marks.has('doubt') || marks.has('others') || strange) {
    return unsure([likely(bound, activity, 'finished', today), notDone(activity, plotsOf(bound))]);
  }
  return stated(bound, activity, today);
}

/** What one clause with a verb says; null when it says nothing of its own ("before ploughing"). */
export function interpret(bound: Bound, today: Day): Outcome {
  const { head, marks, aside } = bound.clause;
  if (!head || (aside && !marks.has('question'))) return null;
  if (marks.has('elsewhere')) return unsure([], 'nothing-known', bound.clause.said);
  const activities = bound.plots ? head.activities : (head.unplaced ?? head.activities);
  const outcomes = activities.map((activity) => one(bound, activity, today));
  const [first] = outcomes;
  if (outcomes.length === 1 || first === undefined) return first ?? null;
  const choices = outcomes.flatMap((outcome) => {
    if (!outcome) return [];
    return 'reading' in outcome ? [outcome.reading] : outcome.unclear.choices.slice(0, 1);
  });
  return unsure(choices);
}
