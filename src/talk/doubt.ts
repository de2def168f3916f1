/** Whether a report can be written down as it stands, or has to be asked back first. A wrong record is the worst outcome. */
import { holds } from '../agronomy/frame.ts';
import { figure } from '../agronomy/rulebook.ts';
import type { Activity, Report, Stage } from '../agronomy/season.ts';
import type { ReportReading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';
import { comesBefore, hasRounds } from './order.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

export type Verdict =
  | { readonly kind: 'sure'; readonly report: NewReport }
  /** The same was said before, or the day is not known this time: nothing to write. */
  | { readonly kind: 'already'; readonly activity: Activity; readonly stage: Stage; readonly on: Day | null }
  /** Done before on another day: was that day wrong, is it the same, or (where that can be) done again? */
  | {
      readonly kind: 'again';
      readonly report: NewReport;
      readonly earlier: Day | null;
      /** The report that stands, when it is kept already. */
      readonly standing: string | null;
      readonly again: boolean;
      /** The new day was said rather than taken to be today. */
      readonly dayStated: boolean;
    }
  /** Bunds were closed where a canal brings the water: that soaks nothing. */
  | { readonly kind: 'bunds' }
  /** Work that this plot's way of growing does not have. */
  | { readonly kind: 'foreign'; readonly activity: Activity }
  /** Work far ahead of all that was reported: is the earlier work done, or was another word meant? */
  | { readonly kind: 'jump'; readonly report: NewReport; readonly meant: Activity | null }
  /** Work that comes later stands with an earlier day: before that, or (where weeds can call for it) done again? */
  | {
      readonly kind: 'later-done';
      readonly report: NewReport;
      readonly later: Activity;
      readonly on: Day;
      readonly again: boolean;
    }
  /** Work that comes before stands with a later day: the day must be wrong. */
  | { readonly kind: 'too-early'; readonly before: Activity; readonly on: Day };

/** One report on one plot, with the verdict on it. */
export interface Judged {
  readonly plot: PlotWorld;
  readonly verdict: Verdict;
}

/** Work that is done again when weeds return; other work is not. */
const DONE_AGAIN: readonly Activity[] = ['plough', 'puddle', 'level'];

/** Judges a report of this activity on this plot, given what stands there already. */
export function judge(
  world: World,
  plot: PlotWorld,
  reading: ReportReading,
  activity: Activity,
  standing: readonly Report[],
): Verdict {
  const on = reading.on === null ? null : parseDay(reading.on);
  const report: NewReport = {
    seasonId: plot.seasonId,
    activity,
    stage: reading.stage,
    on,
    measures: reading.measures,
  };
  if (isForeign(world, plot, activity)) return { kind: 'foreign', activity };
  const bunds = activity === 'soak' && reading.assumed.includes('activity');
  if (bunds && plot.season.way.water === 'irrigated') return { kind: 'bunds' };
  const same = sameReport(world, report, standing, !reading.assumed.includes('on'));
  if (same) return same;
  const tooEarly = laterPredecessor(world, report, standing);
  if (tooEarly) return tooEarly;
  if (jumps(world, report, standing)) return { kind: 'jump', report, meant: MEANT[activity] ?? null };
  const later = earlierSuccessor(world, report, standing);
  const again = DONE_AGAIN.includes(activity);
  if (!again && reading.assumed.includes('on') && anySuccessor(world, report, standing))
    return { kind: 'sure', report: { ...report, on: null } };
  if (!later) return { kind: 'sure', report };
  return { kind: 'later-done', report, later: later.activity, on: later.on, again };
}

function sameReport(
  world: World,
  report: NewReport,
  standing: readonly Report[],
  dayStated: boolean,
): Verdict | null {
  const own = standing.filter(
    ({ activity, stage }) =>
      activity === report.activity && (stage === 'finished' || report.stage === 'started'),
  );
  const last = own.at(-1);
  if (!last) return null;
  if (isNews(report, last)) return null;
  const rounds = hasRounds(world.rulebook, report.activity);
  const going = report.stage === 'started' && last.stage === 'started';
  if (going || last.on === report.on || (report.on === null && !rounds))
    return { kind: 'already', activity: report.activity, stage: last.stage, on: last.on };
  const unknown = last.on === null || report.on === null;
  const apart = unknown ? Infinity : Math.abs((report.on ?? 0) - (last.on ?? 0));
  if (rounds && apart >= figure(world.rulebook, 'round-apart')) return null;
  const again = rounds || (DONE_AGAIN.includes(report.activity) && (report.on ?? 0) > (last.on ?? 0));
  const kept = 'id' in last ? String(last.id) : null;
  return { kind: 'again', report, earlier: last.on, standing: kept, again, dayStated };
}

/** How far work under way has come, or how level a plot is after it was levelled once more. */
function isNews({ stage, measures, on }: NewReport, last: Report): boolean {
  if (stage === 'started' && last.stage === 'started' && measures.share !== undefined)
    return last.on !== on || last.measures?.share !== measures.share;
  const later = on !== null && last.on !== null && on > last.on;
  return stage === 'finished' && later && measures.spotsCm !== undefined;
}

/** What growers may mean by a word when nothing before it was reported. */
const MEANT: Readonly<Partial<Record<Activity, Activity>>> = { transplant: 'sow-nursery', weed: 'clear' };
/** Steps without which later work can hardly have been done: one of each group must have been reported. */
const NEEDS: Readonly<Partial<Record<Activity, readonly Activity[]>>> = {
  transplant: ['puddle', 'level', 'sow-nursery', 'flood'],
  'sow-direct': ['puddle', 'level', 'pregerminate', 'flood'],
  'gap-fill': ['transplant'],
  weed: ['transplant', 'sow-direct'],
  topdress: ['transplant', 'sow-direct'],
  drain: ['transplant', 'sow-direct'],
  harvest: ['transplant', 'sow-direct', 'drain'],
};

/** Whether the plot is grown without this work: puddling where nobody ploughs, planting where seed is sown. */
export function isForeign({ rulebook }: World, { season }: PlotWorld, activity: Activity): boolean {
  const steps = rulebook.steps.filter((step) => step.activity === activity);
  return !steps.some((step) => holds(step.when, season.way));
}

/** Whether nothing near to this work was reported: a slip of the word is then as likely as a skipped report. */
function jumps({ rulebook }: World, { activity }: NewReport, standing: readonly Report[]): boolean {
  const needs = NEEDS[activity];
  if (!needs) return false;
  return !standing.some(
    (report) => needs.includes(report.activity) || comesBefore(rulebook, activity, report.activity),
  );
}

function laterPredecessor(world: World, report: NewReport, standing: readonly Report[]): Verdict | null {
  if (report.on === null) return null;
  for (const { activity, on } of standing) {
    if (on !== null && on > report.on && comesBefore(world.rulebook, activity, report.activity)) {
      return { kind: 'too-early', before: activity, on };
    }
  }
  return null;
}

/** Work that comes later stands, on whatever day up to the one given. */
function anySuccessor(world: World, report: NewReport, standing: readonly Report[]): boolean {
  return standing.some(
    ({ activity, on }) =>
      (on ?? report.on ?? 0) <= (report.on ?? 0) && comesBefore(world.rulebook, report.activity, activity),
  );
}

function earlierSuccessor(
  world: World,
  report: NewReport,
  standing: readonly Report[],
): { activity: Activity; on: Day } | null {
  if (report.on === null) return null;
  for (const { activity, on } of standing) {
    if (on !== null && on < report.on && comesBefore(world.rulebook, report.activity, activity))
      return { activity, on };
  }
  return null;
}
