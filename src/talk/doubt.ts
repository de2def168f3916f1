/** Whether a report can be written down as it stands, or has to be asked back first. A wrong record is the worst outcome. */
import type { Activity, Report } from '../agronomy/season.ts';
import type { ReportReading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';
import { comesBefore, hasRounds } from './order.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

export type Verdict =
  | { readonly kind: 'sure'; readonly report: NewReport }
  /** The same was said before, or the day is not known this time: nothing to write. */
  | { readonly kind: 'already'; readonly activity: Activity; readonly on: Day | null }
  /** Done before on another day: again, or the same? */
  | { readonly kind: 'again'; readonly report: NewReport; readonly earlier: Day | null }
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

/** Rounds of weeding or feeding are at least this many days apart. */
const ROUND_DAYS = 7;
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
  const same = sameReport(world, report, standing);
  if (same) return same;
  const tooEarly = laterPredecessor(world, report, standing);
  if (tooEarly) return tooEarly;
  const later = earlierSuccessor(world, report, standing);
  if (!later) return { kind: 'sure', report };
  const again = DONE_AGAIN.includes(activity);
  if (!again && reading.assumed.includes('on')) return { kind: 'sure', report: { ...report, on: null } };
  return { kind: 'later-done', report, later: later.activity, on: later.on, again };
}

function sameReport(world: World, report: NewReport, standing: readonly Report[]): Verdict | null {
  const own = standing.filter(
    ({ activity, stage }) =>
      activity === report.activity && (stage === 'finished' || report.stage === 'started'),
  );
  const last = own.at(-1);
  if (!last) return null;
  const rounds = hasRounds(world.rulebook, report.activity);
  if (last.on === report.on || (report.on === null && !rounds))
    return { kind: 'already', activity: report.activity, on: last.on };
  const apart = last.on === null || report.on === null ? ROUND_DAYS : Math.abs(report.on - last.on);
  if (rounds && apart >= ROUND_DAYS) return null;
  return { kind: 'again', report, earlier: last.on };
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
