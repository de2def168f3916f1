/** Puts the clauses of a text together: all their readings, or one reason why nothing may be recorded. */
import type { Activity } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { Bound } from './bind.ts';
import { interpret } from './interpret.ts';
import type { Outcome } from './outcome.ts';
import { likely, notDone } from './possible-readings.ts';
import type { Heard, Reading, Unclear } from './reading.ts';
import { stageSaid } from './stage-said.ts';
import { troubleReading } from './trouble-reading.ts';

const ids = (bound: Bound): readonly string[] => bound.plots?.ids ?? [];

type About = 'next' | 'dates' | 'why' | 'help' | 'plots';

function ask(bound: Bound): Reading[] {
  const { head, ending, marks } = bound.clause;
  const about = bound.clause.ask ?? (bound.plots ? bound.clause.askAlone : null);
  if (about !== null && (head === null || bound.clause.aside)) {
    return [{ kind: 'ask', about: about as About, plots: ids(bound), assumed: [] }];
  }
  const vague = head === null && bound.clause.trouble === null && (ending === '?' || marks.has('question'));
  if (!vague || ids(bound).length === 0) return [];
  return [{ kind: 'ask', about: 'next', plots: ids(bound), assumed: [] }];
}

/** "ploughed 1, no, 2": one of the two was meant. */
function corrected(before: Bound, bound: Bound, activity: Activity, today: Day): Outcome {
  const first = likely(before, activity, 'finished', today);
  return { unclear: { why: 'two-meanings', choices: [{ ...first, plots: ids(bound) }, first] } };
}

/** "started ploughing 3, not finished": says once more that it is under way. */
function isStillOn({ clause, days }: Bound, before: Bound): boolean {
  const going = before.clause.head?.form === 'doing' || before.clause.head?.form === 'going';
  const begun = stageSaid(before) === 'started' || (going && before.clause.stages.length === 0);
  return begun && clause.stages.includes('finished') && days.length === 0;
}

/** "ploughed 3, not 4": the verb before is denied of other plots. "nothing done", "not yet": of whatever was meant. */
function elliptic(bound: Bound, before: Bound | undefined, today: Day): Outcome {
  const { marks, head, trouble: lack, stages } = bound.clause;
  const denies = marks.has('not') || marks.has('nothing');
  if (head || lack || !denies) return null;
  const activity = before?.clause.head?.activities[0] ?? null;
  if (before && activity && bound.clause.plots && marks.has('doubt'))
    return corrected(before, bound, activity, today);
  if (bound.clause.plots) return { reading: notDone(activity, ids(bound)) };
  if (before && isStillOn(bound, before)) return null;
  if (before?.clause.head) return { unclear: { why: 'two-meanings', choices: [] } };
  const plain = marks.has('nothing') || stages.length > 0 || marks.has('need');
  return plain || bound.clause.strange === false ? { reading: notDone(null, []) } : null;
}

/** A text that speaks of plots or of being done, but of no work. */
function withoutVerb(bounds: readonly Bound[]): Unclear | null {
  const about = bounds.filter(
    ({ clause, plots }) => (clause.stages.length > 0 || plots !== null) && !clause.marks.has('elsewhere'),
  );
  if (about.length === 0) return null;
  const plots = about.flatMap(ids);
  return {
    why: 'which-activity',
    choices: plots.length > 0 ? [{ kind: 'ask', about: 'next', plots, assumed: [] }] : [],
  };
}

const meet = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === 0 ||
  b.length === 0 ||
  a.includes('all') ||
  b.includes('all') ||
  a.some((id) => b.includes(id));

/** Done and not done of the same work on the same plot. */
function contradiction(readings: readonly Reading[]): Unclear | null {
  for (const done of readings) {
    if (done.kind !== 'report') continue;
    const other = readings.find(
      (one) =>
        (one.kind === 'not-done' || one.kind === 'intend') &&
        (one.activity === done.activity || one.activity === null) &&
        meet(done.plots, one.plots),
    );
    if (other) return { why: 'two-meanings', choices: [done, other] };
  }
  return null;
}

/** "bund broke, repaired the bund": mended for the damage, or closed to hold the rain. */
function mendedAfter(readings: readonly Reading[]): Unclear | null {
  const trouble = readings.find((reading) => reading.kind === 'trouble');
  const implied = readings.find((one) => one.kind === 'report' && one.assumed.includes('activity'));
  return trouble && implied ? { why: 'two-meanings', choices: [trouble, implied] } : null;
}

/** "ploughed or puddled plot 3": one of the two was done. */
function oneOfTwo(bound: Bound, reading: Reading | undefined, last: Reading | undefined): Unclear | null {
  if (bound.clause.by !== 'or' || reading?.kind !== 'report' || last?.kind !== 'report') return null;
  return { why: 'two-meanings', choices: [last, reading] };
}

/** Plots of which something was said that was not understood: beside reports, nothing is half-recorded. */
function unread(bounds: readonly Bound[], readings: readonly Reading[]): Unclear | null {
  if (!readings.some((reading) => reading.kind === 'report')) return null;
  const loose = bounds.find(
    ({ clause }) => clause.plots !== null && !clause.head && clause.marks.has('doubt'),
  );
  return loose ? { why: 'which-activity', choices: [], said: loose.clause.said } : null;
}

const isOneTrouble = (a: Reading, b: Reading): boolean => {
  if (a.kind !== 'trouble' || b.kind !== 'trouble' || a.over || b.over) return false;
  const near = a.plots.length === 0 || b.plots.length === 0 || a.plots.join() === b.plots.join();
  return near && (a.what === b.what || (a.lost ?? b.lost) !== undefined);
};

/** What brought a loss, before the loss itself: "the river came, rice lost" is one trouble. */
const CAUSES: readonly string[] = ['flooded-out', 'pests', 'no-water'];

/** A trouble told in two pieces, its plot in one of them, is one trouble. */
function joinTroubles(readings: readonly Reading[]): Reading[] {
  const out: Reading[] = [];
  for (const reading of readings) {
    const before = out.at(-1);
    if (
      !before ||
      !isOneTrouble(before, reading) ||
      before.kind !== 'trouble' ||
      reading.kind !== 'trouble'
    ) {
      out.push(reading);
      continue;
    }
    const [cause, other] = CAUSES.includes(before.what) ? [before, reading] : [reading, before];
    const lost = cause.lost ?? other.lost;
    const plots = cause.plots.length > 0 ? cause.plots : other.plots;
    const until = cause.until ?? other.until;
    out[out.length - 1] = { ...cause, plots, until, ...(lost !== undefined && { lost }) };
  }
  return out;
}

/** The same work said twice ("ploughed plot 3, ploughed 12 cm deep") is one report with all that was measured. */
function distinct(readings: readonly Reading[]): Reading[] {
  const out = new Map<string, Reading>();
  for (const reading of readings) {
    const { measures, assumed, ...rest } = { measures: {}, ...reading };
    const key = JSON.stringify(rest);
    const twin = out.get(key);
    if (!twin) out.set(key, reading);
    else if (twin.kind === 'report') {
      const both = twin.assumed.filter((one) => assumed.includes(one));
      out.set(key, { ...twin, measures: { ...twin.measures, ...measures }, assumed: both });
    }
  }
  return [...out.values()];
}

const failed = (unclear: Unclear): Heard => ({ readings: [], unclear });

/** A condition holds for its whole sentence, up to what is asked. */
function withCondition(bounds: readonly Bound[]): Bound[] {
  const conditional = new Set(bounds.flatMap((b) => (b.clause.marks.has('if') ? [b.clause.sentence] : [])));
  const asked = (b: Bound) => b.clause.marks.has('question') || b.clause.ask !== null;
  const questions = new Set(bounds.flatMap((b) => (asked(b) ? [b.clause.sentence] : [])));
  return bounds.flatMap((bound) => {
    const { clause } = bound;
    if (!conditional.has(clause.sentence)) return [bound];
    if (questions.has(clause.sentence)) return asked(bound) ? [bound] : [];
    return [{ ...bound, clause: { ...clause, marks: new Set([...clause.marks, 'if'] as const) } }];
  });
}

/** "before planting" is asked about only when nothing else is: "how many days before planting". */
function withoutAsides(bounds: readonly Bound[]): readonly Bound[] {
  const kept = bounds.filter(({ clause }) => !(clause.aside && clause.marks.has('question')));
  return kept.some((bound) => bound.clause.head) ? kept : bounds;
}

/** The readings of all clauses in order; one that is unclear makes the whole text unclear. */
export function assemble(all: readonly Bound[], today: Day): Heard {
  const bounds = withoutAsides(withCondition(all));
  const readings: Reading[] = [];
  for (const [i, bound] of bounds.entries()) {
    const before = bounds.slice(0, i).findLast((one) => one.clause.head);
    for (const outcome of [interpret(bound, today), elliptic(bound, before, today)]) {
      if (outcome && 'unclear' in outcome) return failed(outcome.unclear);
      const either = oneOfTwo(bound, outcome?.reading, readings.at(-1));
      if (either) return failed(either);
      if (outcome) readings.push(outcome.reading);
    }
    readings.push(...troubleReading(bound, bounds, today), ...ask(bound));
  }
  const clash = contradiction(readings) ?? mendedAfter(readings) ?? unread(bounds, readings);
  if (clash) return failed(clash);
  if (readings.length > 0) return { readings: joinTroubles(distinct(readings)), unclear: null };
  return failed(withoutVerb(bounds) ?? { why: 'nothing-known', choices: [] });
}
