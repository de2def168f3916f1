/** Reports of finished or begun work: found on their plots, judged, written down, echoed, and answered with the next step. */
import { standingReports } from '../agronomy/facts.ts';
import { ACTIVITIES, type Activity } from '../agronomy/season.ts';
import type { ReportReading } from '../hear/reading.ts';
import { answerReports } from './answer-reports.ts';
import { type Judged, judge } from './doubt.ts';
import { inContext } from './in-context.ts';
import { comesBefore } from './order.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import type { Part } from './turn.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** Takes all reports of one text; `asked` are seasons whose question was put before. A plot that is not known stops the whole text. */
export function takeReports(
  world: World,
  readings: readonly ReportReading[],
  asked: readonly string[],
): Part[] {
  const unsaid: ReportReading[] = [];
  const judged: Judged[] = [];
  const parts: Part[] = [];
  for (const reading of inOrder(readings)) {
    const found = findPlots(world, reading.plots);
    if (found.kind === 'none') return [noPlots(world)];
    if (found.kind === 'unknown') return [unknownPlot(world, found.said)];
    if (found.kind === 'which') unsaid.push(reading);
    else judged.push(...found.plots.map((plot) => judgeOn(world, plot, reading, readings, judged)));
  }
  if (judged.length > 0) parts.push(answerReports(world, judged, asked));
  if (unsaid.length > 0) parts.push(whichPlot(world, unsaid));
  return parts;
}

const place = ({ activity }: ReportReading) => ACTIVITIES.indexOf(activity);

/** Several steps of one text are taken in the order of the field, days known before days not known being equal. */
function inOrder(readings: readonly ReportReading[]): readonly ReportReading[] {
  return [...readings].sort((a, b) => (a.on ?? '').localeCompare(b.on ?? '') || place(a) - place(b));
}

function judgeOn(
  world: World,
  plot: PlotWorld,
  reading: ReportReading,
  all: readonly ReportReading[],
  before: readonly Judged[],
): Judged {
  const fresh = before.flatMap(({ plot: other, verdict }) =>
    other === plot && verdict.kind === 'sure' ? [verdict.report] : [],
  );
  const standing = standingReports({ ...plot.season, reports: [...plot.season.reports, ...fresh] });
  const activity = reading.picked
    ? reading.activity
    : inContext(world.rulebook, plot.season.way, reading.activity, standing);
  const timed = dayUnsaid(world, reading, activity, all) ? { ...reading, on: null } : reading;
  return { plot, verdict: judge(world, plot, timed, activity, standing) };
}

/** "Cleared, soaked and ploughed": with no day said, only the last step can have been today. */
function dayUnsaid(
  world: World,
  reading: ReportReading,
  activity: Activity,
  all: readonly ReportReading[],
): boolean {
  if (!reading.assumed.includes('on')) return false;
  return all.some(
    (other) =>
      other !== reading &&
      comesBefore(world.rulebook, activity, other.activity) &&
      (other.plots.length === 0 ||
        reading.plots.length === 0 ||
        other.plots.some((plot) => reading.plots.includes(plot))),
  );
}

/** Writes down reports that a numbered answer has settled. */
export function takeSettled(world: World, reports: readonly NewReport[], asked: readonly string[]): Part {
  const judged = reports.flatMap((report): Judged[] => {
    const plot = world.plots.find(({ seasonId }) => seasonId === report.seasonId);
    return plot ? [{ plot, verdict: { kind: 'sure', report } }] : [];
  });
  return answerReports(world, judged, asked);
}
