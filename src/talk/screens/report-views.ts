/** The screens of a report: which work, which day, and what is then recorded. */

import { ACTIVITIES, type Activity } from '../../agronomy/season.ts';
import { isForeign } from '../doubt.ts';
import { inContext } from '../in-context.ts';
import { activityName, doneSentence, which } from '../phrases.ts';
import { planned } from '../planned.ts';
import type { PlotWorld } from '../world.ts';
import { reportDone } from './entries.ts';
import { MAIN, type Screen, type ScreenWorld, to } from './screen.ts';
import { backTo, line, roomy, UNTURNED, type View } from './view.ts';

/**
 * The plot's work in the order in which it can be meant: what is open by its due day, then what counts as done. Left out is
 * what a text would take for something else there.
 */
export function activitiesFor({ world }: ScreenWorld, plot: PlotWorld): readonly Activity[] {
  const { steps } = planned(world, plot).plan;
  const { way, reports } = plot.season;
  const open = steps.filter(({ status }) => status !== 'done');
  const byDue = [...open].sort((a, b) => (a.due ?? Infinity) - (b.due ?? Infinity) || 0);
  const own = ACTIVITIES.filter((activity) => !isForeign(world, plot, activity));
  const all = new Set([...byDue.map(({ activity }) => activity), ...own]);
  return [...all].filter((activity) => inContext(world.rulebook, way, activity, reports) === activity);
}

/** Which work was done. */
export function activityView(
  its: ScreenWorld,
  { plotId, page }: Screen & { at: 'activity' },
  plot: PlotWorld,
): View {
  const options = activitiesFor(its, plot).map((activity) => ({
    label: its.speak({ sentences: [activityName(activity)] }),
    leads: to({ at: 'day', plotId, activity }),
  }));
  return {
    ...{ kind: 'list', page, options },
    head: [line(its, 'screen.which-work', { which: which([plot]) })],
    turned: (next) => to({ at: 'activity', plotId, page: next }),
    back: backTo(its, MAIN),
  };
}

/** Today, yesterday, or some days ago. */
export function dayView(its: ScreenWorld, screen: Screen & { at: 'day' }, plot: PlotWorld): View {
  const { plotId, activity } = screen;
  const { today } = its.world;
  const sure = (on: number) => to({ at: 'sure-report', plotId, activity, on });
  const what = { which: which([plot]), activity: activityName(activity) };
  return {
    ...{ kind: 'list', head: [line(its, 'screen.work', what)], ...UNTURNED },
    options: [
      { label: line(its, 'screen.today'), leads: sure(today) },
      { label: line(its, 'screen.yesterday'), leads: sure(today - 1) },
      { label: line(its, 'screen.other-day'), leads: to({ at: 'days-ago', plotId, activity }) },
    ],
    back: backTo(its, { at: 'activity', plotId, page: 0 }),
  };
}

/** "Plot 3 ploughed Tue 9 Mar." 1 records it. */
export function sureReportView(
  its: ScreenWorld,
  { plotId, activity, on, key = 1 }: Screen & { at: 'sure-report' },
  plot: PlotWorld,
): View {
  const record = line(its, 'screen.record');
  const done = its.speak({ sentences: [doneSentence(activity, [plot], on)] });
  const what = { which: which([plot]), activity: activityName(activity), day: { day: on } };
  return {
    ...{ kind: 'list', head: [roomy(its, record, done, line(its, 'screen.work-day', what))], ...UNTURNED },
    first: key,
    options: [{ label: record, leads: reportDone(plot, activity, on) }],
    back: backTo(its, { at: 'day', plotId, activity }),
  };
}
