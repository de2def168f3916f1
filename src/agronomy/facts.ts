/** What the reports tell about every step: open, under way or done, and when; and what later work implies about earlier. */
import type { Day } from '../plan/day.ts';
import type { Rulebook, Step } from './rulebook.ts';
import type { Activity, Report, Season } from './season.ts';

export interface Fact {
  readonly state: 'open' | 'started' | 'done';
  /** The day the work began, when reported. */
  readonly startedOn: Day | null;
  /** The day the work ended; null when open, or done on an unknown day. */
  readonly on: Day | null;
  /** Done because a later step was: nobody said so. */
  readonly implied: boolean;
  /** Half-done work: the part that was done by the evening of a day. */
  readonly part?: { readonly share: number; readonly on: Day };
}

const OPEN: Fact = { state: 'open', startedOn: null, on: null, implied: false };
const IMPLIED: Fact = { state: 'done', startedOn: null, on: null, implied: true };

/** Work that a later ploughing, puddling or sowing undoes: it has to be done again. */
const UNDONE_BY: Readonly<Partial<Record<Activity, readonly Activity[]>>> = {
  plough: ['rough-level', 'flood', 'manure', 'puddle', 'basal', 'level'],
  puddle: ['level'],
};

const NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];
/** Work that outlasts a lost crop, though its days no longer tell anything. */
const OUTLASTS: readonly Activity[] = ['clear', 'soak', 'plough', 'rough-level', 'flood', 'manure'];

/** Facts of the given steps, in their order. */
export function factsOf(book: Rulebook, season: Season, steps: readonly Step[]): readonly Fact[] {
  const standing = standingReports(season);
  const facts = steps.map((step) => factOf(step, standing));
  const done = impliedBy(book.steps, steps, facts);
  return facts.map((fact, index) => {
    const step = steps[index] as Step;
    return fact.state !== 'done' && done.has(step.activity) && !step.optional
      ? { ...IMPLIED, startedOn: fact.startedOn }
      : fact;
  });
}

/** Reports that still describe the plot: a later ploughing undoes the flooding before it, a nursery can be given up, a crop lost. */
export function standingReports(season: Season): readonly Report[] {
  return afterLoss(season, notUndone(season));
}

/** Of the time before a lost crop only the field work counts, on a day not known; the plot was flooded, whether told or not. */
function afterLoss({ cropLostOn }: Season, reports: readonly Report[]): readonly Report[] {
  if (cropLostOn === undefined) return reports;
  const since = reports.flatMap((report) => {
    if (report.on !== null && report.on > cropLostOn) return [report];
    return OUTLASTS.includes(report.activity) ? [{ ...report, on: null }] : [];
  });
  return [{ activity: 'flood', stage: 'finished', on: null }, ...since];
}

function notUndone({ reports, nurseryGivenUpOn }: Season): readonly Report[] {
  const corrected = new Set(reports.flatMap(({ corrects }) => (corrects === undefined ? [] : [corrects])));
  return reports.filter((report) => {
    if ('id' in report && corrected.has(String(report.id))) return false;
    const on = report.on;
    const givenUp = nurseryGivenUpOn !== undefined && (on ?? nurseryGivenUpOn) <= nurseryGivenUpOn;
    if (givenUp && NURSERY.includes(report.activity)) return false;
    if (on === null) return true;
    return !reports.some(
      (later) =>
        later.on !== null && later.on > on && UNDONE_BY[later.activity]?.includes(report.activity) === true,
    );
  });
}

function factOf(step: Step, reports: readonly Report[]): Fact {
  const own = reports.filter((report) => report.activity === step.activity);
  const finished = own.filter((report) => report.stage === 'finished').sort(byDay);
  const round = (step.round ?? 1) - 1;
  const last = step.round ? finished[round] : chosen(step.activity, finished);
  const starts = own.filter((report) => report.stage === 'started').sort(byDay);
  const begunAnew = starts.filter((report) => last !== undefined && isAfter(report, last, own));
  if (last && begunAnew.length === 0) return doneFact(last, starts);
  return startedFact(last ? begunAnew : starts);
}

/** Begun on a later day; or, on the same day, a survey after it that found the plot uneven. */
function isAfter(start: Report, last: Report, inTurn: readonly Report[]): boolean {
  if (last.on === null || start.on === null || start.on < last.on) return false;
  const isSurvey = start.measures?.spotsCm !== undefined;
  return start.on > last.on || (isSurvey && inTurn.indexOf(start) > inTurn.indexOf(last));
}

function doneFact({ on }: Report, starts: readonly Report[]): Fact {
  const started = starts.findLast((report) => report.on !== null && report.on <= (on ?? report.on));
  return { state: 'done', startedOn: started?.on ?? null, on, implied: false };
}

const shareOf = (report: Report | null): number => report?.measures?.share ?? 0;

/** Work counts as begun on the first day that was told, and as far as the furthest word on it says. */
function startedFact(starts: readonly Report[]): Fact {
  if (starts.length === 0) return OPEN;
  const startedOn = starts.find(({ on }) => on !== null)?.on ?? null;
  const furthest = starts.reduce<Report | null>(
    (most, one) => (one.on !== null && shareOf(one) >= shareOf(most) ? one : most),
    null,
  );
  const share = shareOf(furthest);
  const part = furthest?.on != null && share > 0 ? { part: { share, on: furthest.on } } : {};
  return { state: 'started', startedOn, on: null, implied: false, ...part };
}

/** The newest report counts; for flooding the first: topping up does not start the rotting again. */
function chosen(activity: Activity, finished: readonly Report[]): Report | undefined {
  return activity === 'flood' ? finished[0] : finished.at(-1);
}

/** Puts reports in the order of their days; those without a day come first. */
export const byDay = (a: Report, b: Report) => (a.on ?? -1e9) - (b.on ?? -1e9);

/** Every activity that some step under way or done tells to be done, through any number of steps. */
function impliedBy(
  all: readonly Step[],
  steps: readonly Step[],
  facts: readonly Fact[],
): ReadonlySet<Activity> {
  const done = new Set<Activity>();
  const visit = (activity: Activity) => {
    for (const before of all.find((step) => step.activity === activity)?.implies ?? []) {
      if (done.has(before)) continue;
      done.add(before);
      visit(before);
    }
  };
  facts.forEach((fact, index) => {
    if (fact.state !== 'open') visit((steps[index] as Step).activity);
  });
  return done;
}
