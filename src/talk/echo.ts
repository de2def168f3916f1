/** Says what was written down: each kind of work with its day and its plots, and earlier work that now counts as done. */
import type { Message } from '../say/message.ts';
import type { Judged, Verdict } from './doubt.ts';
import { activityName, doneSentence, inside, which } from './phrases.ts';
import { type Planned, planned } from './planned.ts';
import type { Sentence } from './turn.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** Several earlier steps that nobody had reported now count as done: the grower must know it. */
export function taken(world: World, plans: readonly Planned[]): Sentence[] {
  const implied = (plan: Planned['plan']) => plan.steps.filter((step) => step.implied).length;
  const several = plans.filter(({ plan }) => implied(plan) > 1);
  const more = several.some(({ plot, plan }) => implied(plan) > implied(planned(world, plot).plan) + 1);
  return more ? [{ key: 'echo.taken' }] : [];
}

/** One echo for each kind of work and day, its plots together. */
export function echoes(judged: readonly Judged[]): Message[] {
  const groups = new Map<string, { verdict: Verdict; plots: PlotWorld[] }>();
  for (const { plot, verdict } of judged) {
    const key = echoKey(verdict);
    if (key === null) continue;
    const group = groups.get(key);
    if (group) group.plots.push(plot);
    else groups.set(key, { verdict, plots: [plot] });
  }
  return [...groups.values()].map(({ verdict, plots }) => echo(verdict, plots));
}

function echoKey(verdict: Verdict): string | null {
  if (verdict.kind === 'already') return `already ${verdict.activity} ${verdict.on}`;
  return verdict.kind === 'sure'
    ? `${verdict.report.activity} ${verdict.report.stage} ${verdict.report.on} ${verdict.report.measures.share}`
    : null;
}

function goingAlready({ activity, on }: Verdict & { kind: 'already' }, plots: readonly PlotWorld[]): Message {
  const values = { activity: activityName(activity), inside: inside(plots) };
  return on === null
    ? { key: 'echo.already-going', values }
    : { key: 'echo.already-started', values: { ...values, day: { day: on } } };
}

function echo(verdict: Verdict, plots: readonly PlotWorld[]): Message {
  if (verdict.kind === 'already') {
    if (verdict.stage === 'started') return goingAlready(verdict, plots);
    return doneSentence(verdict.activity, plots, verdict.on, 'echo.already', 'echo.already-unknown');
  }
  const { activity, stage, on, measures } = (verdict as { report: NewReport }).report;
  if (stage === 'started' && on !== null && measures.share !== undefined) {
    const percent = Math.round(measures.share * 100);
    const values = { which: which(plots), activity: activityName(activity), day: { day: on }, percent };
    return { key: 'echo.part', values };
  }
  if (stage === 'started' && on !== null) {
    return {
      key: 'echo.started',
      values: { which: which(plots), activity: activityName(activity), day: { day: on } },
    };
  }
  return doneSentence(activity, plots, on);
}
