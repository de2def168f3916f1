/** The answer to reports: what was written down, whether it was well done, what comes next, or a question first. */

import { depthLapses } from '../agronomy/lapses.ts';
import type { Lapse } from '../agronomy/plot-plan.ts';
import { figure } from '../agronomy/rulebook.ts';
import type { Activity } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { Message } from '../say/message.ts';
import type { Judged, Verdict } from './doubt.ts';
import type { Effect } from './effect.ts';
import { tellNext } from './next-step.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { activityName, doneSentence, inside, officer, which } from './phrases.ts';
import { type Planned, planned, remindEffects } from './planned.ts';
import { type Part, type Sentence, spare } from './turn.ts';
import { askWaysOut, stillOld, tellWaysOut } from './ways-out.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** Writes what is sure, echoes it, and asks the first thing that is not. */
export function answerReports(world: World, judged: readonly Judged[], asked: readonly string[]): Part {
  const sure = judged.flatMap(({ verdict }) => (verdict.kind === 'sure' ? [verdict.report] : []));
  const doubtful = judged.filter(({ verdict }) => verdict.kind !== 'sure' && verdict.kind !== 'already');
  const plots = [...new Set(judged.filter(({ verdict }) => verdict.kind === 'sure').map(({ plot }) => plot))];
  const plans = plots.map((plot) => planned(world, plot, { added: sure }));
  const effects: Effect[] = sure.map((report) => ({ do: 'record', report }));
  effects.push(...remindEffects(world, plans));
  const checked = checks(world, judged, plans);
  const head: Sentence[] = [...echoes(judged), ...checked, ...taken(world, plans)];
  const [doubt] = doubtful;
  const whole = doubt ? question(world, doubt, doubtful.length > 1) : onwards(world, plans, judged, asked);
  const tail = checked.some(({ key }) => key !== 'check.plough-depth-good') ? shortened(whole) : whole;
  return { ...tail, say: [...head, ...tail.say], effects: [...effects, ...(tail.effects ?? [])] };
}

/** Where there is something to say about the work itself, what comes beside the next step may go, and a caution waits. */
function shortened(part: Part): Part {
  const beside = (key: string) => key === 'next.also' || key === 'next.then';
  const say = part.say.filter(({ key }) => !key.startsWith('caution.'));
  return {
    ...part,
    say: say.map((one) => (beside(one.key) ? { ...one, spare: true } : one)),
    effects: (part.effects ?? []).filter((effect) => effect.do !== 'cautioned'),
  };
}

function onwards(
  world: World,
  plans: readonly Planned[],
  judged: readonly Judged[],
  asked: readonly string[],
): Part {
  const already = judged
    .filter(({ verdict }) => verdict.kind === 'already')
    .map(({ plot }) => planned(world, plot));
  const all = plans.length > 0 ? plans : already;
  const after = judged.flatMap(({ verdict }) => activityOf(verdict)).at(-1);
  const question = askWaysOut(world, all, ({ plot }) => asked.includes(plot.seasonId));
  if (question) return question;
  const next = tellNext(world, all, after === undefined ? {} : { after });
  return { ...next, say: [...tellWaysOut(world, all), ...next.say, ...stillOld(all)] };
}

function activityOf(verdict: Verdict): readonly Activity[] {
  if (verdict.kind === 'sure') return [verdict.report.activity];
  return verdict.kind === 'already' ? [verdict.activity] : [];
}

/** Several earlier steps that nobody had reported now count as done: the grower must know it. */
function taken(world: World, plans: readonly Planned[]): Sentence[] {
  const implied = (plan: Planned['plan']) => plan.steps.filter((step) => step.implied).length;
  const more = plans.some(({ plot, plan }) => implied(plan) > implied(planned(world, plot).plan) + 1);
  return more ? [{ key: 'echo.taken' }] : [];
}

/** One echo for each kind of work and day, its plots together. */
function echoes(judged: readonly Judged[]): Message[] {
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
    ? `${verdict.report.activity} ${verdict.report.stage} ${verdict.report.on}`
    : null;
}

function echo(verdict: Verdict, plots: readonly PlotWorld[]): Message {
  if (verdict.kind === 'already') {
    return doneSentence(verdict.activity, plots, verdict.on, 'echo.already', 'echo.already-unknown');
  }
  const { activity, stage, on } = (verdict as { report: NewReport }).report;
  if (stage === 'started' && on !== null) {
    return {
      key: 'echo.started',
      values: { which: which(plots), activity: activityName(activity), day: { day: on } },
    };
  }
  return doneSentence(activity, plots, on);
}

/** Depths that were texted, and rules that this report has broken. */
function checks(world: World, judged: readonly Judged[], plans: readonly Planned[]): Sentence[] {
  const sentences: Sentence[] = [];
  for (const { verdict } of judged) {
    if (verdict.kind === 'sure') sentences.push(...depthCheck(world, verdict.report));
  }
  const lapses = plans.flatMap(({ plan, plot }) => newLapses(world, plan.lapses, plot, judged));
  const worst = lapses.reduce<Lapse | null>(
    (most, lapse) => (most && most.cost.rank >= lapse.cost.rank ? most : lapse),
    null,
  );
  if (worst?.byDays) {
    sentences.push({
      key: `lapse.${worst.side}`,
      values: { count: worst.byDays, cost: { key: `cost.${worst.cost.name}` } },
    });
  }
  const seen = new Set<string>();
  return sentences.filter(
    (sentence) => !seen.has(JSON.stringify(sentence)) && seen.add(JSON.stringify(sentence)),
  );
}

function depthCheck(world: World, report: NewReport): Sentence[] {
  const { rulebook: book } = world;
  const [lapse] = depthLapses({ book }, report);
  const depth = report.measures.depthCm;
  const limits = { min: figure(book, 'plough-depth.min'), max: figure(book, 'plough-depth.max') };
  if (lapse?.rule === 'plough-depth' && depth !== undefined)
    return [{ key: `check.plough-depth-${lapse.side}`, values: { depth, ...limits } }];
  if (lapse?.rule === 'level-range') {
    const max = figure(book, 'level-range.max');
    return [{ key: 'check.level-range-hi', values: { range: max + (lapse.byCm ?? 0), max } }];
  }
  return report.activity === 'plough' && depth !== undefined
    ? [{ key: 'check.plough-depth-good', values: { depth } }]
    : [];
}

/** Lapses in which this text's own work came too soon or too late. */
function newLapses(
  world: World,
  lapses: readonly Lapse[],
  plot: PlotWorld,
  judged: readonly Judged[],
): readonly Lapse[] {
  const worked = judged.flatMap(({ plot: other, verdict }) =>
    other === plot && verdict.kind === 'sure' ? [verdict.report.activity] : [],
  );
  return lapses.filter(({ rule, byDays }) => {
    const rules = world.rulebook.rules.filter((one) => one.name === rule);
    return byDays !== undefined && rules.some(({ to }) => worked.includes(to.activity));
  });
}

/** The question that a doubtful report raises. */
function question(world: World, { plot, verdict }: Judged, more: boolean): Part {
  const rest: Sentence[] = more ? [spare('ask.rest')] : [];
  const ask = (head: Message, options: readonly Option[]): Part => {
    const part = options.length > 0 ? numbered([head], options) : { say: [head] };
    return { ...part, say: [...part.say, ...rest], topic: { plotId: plot.id, activity: null } };
  };
  switch (verdict.kind) {
    case 'again':
      return ask(
        doneSentence(
          verdict.report.activity,
          [plot],
          verdict.earlier,
          'ask.done-again',
          'ask.done-again-unknown',
        ),
        sameOrAgain(verdict),
      );
    case 'jump':
      return ask({ key: 'ask.jump', values: { inside: inside([plot]) } }, [
        {
          what: doneSentence(
            verdict.report.activity,
            [plot],
            verdict.report.on,
            'choice.report',
            'choice.report-unknown',
          ),
          leads: { do: 'record', reports: [verdict.report] },
        },
        ...meant(plot, verdict),
        leave('choice.nothing'),
      ]);
    case 'later-done':
      return ask(doneSentence(verdict.later, [plot], verdict.on, 'ask.later-done'), [
        ...(verdict.again ? [again(verdict.report)] : []),
        {
          what: { key: 'choice.before' },
          leads: { do: 'record', reports: [{ ...verdict.report, on: null }] },
        },
        leave('choice.nothing'),
      ]);
    case 'foreign':
      return ask(
        {
          key: 'ask.foreign',
          values: { which: which([plot]), activity: activityName(verdict.activity), ...officer(world) },
        },
        [],
      );
    case 'too-early':
      return ask(doneSentence(verdict.before, [plot], verdict.on, 'ask.order-back'), []);
    case 'sure':
    case 'already':
      return { say: [] };
  }
}

/** A day that was said comes first; else the same thing was most likely texted twice. */
function sameOrAgain(verdict: Verdict & { kind: 'again' }): Option[] {
  const more = verdict.again ? [again(verdict.report)] : [];
  const same = leave('choice.same');
  return verdict.dayStated
    ? [...correctDay(verdict), same, ...more]
    : [same, ...more, ...correctDay(verdict)];
}

/** "The day was Mon 8 Mar": a new report that stands in for the one with the wrong day. */
function correctDay({ report, standing }: Verdict & { kind: 'again' }): Option[] {
  if (report.on === null || standing === null) return [];
  const what = { key: 'choice.other-day', values: { day: { day: report.on } } };
  return [{ what, leads: { do: 'record', reports: [{ ...report, corrects: standing }] } }];
}

function meant(plot: PlotWorld, { report, meant: activity }: Verdict & { kind: 'jump' }): Option[] {
  if (activity === null) return [];
  const instead = { ...report, activity, measures: {} };
  const what = doneSentence(activity, [plot], report.on, 'choice.report', 'choice.report-unknown');
  return [{ what, leads: { do: 'record', reports: [instead] } }];
}

function again(report: NewReport): Option {
  const on: Day = report.on ?? 0;
  return {
    what: { key: 'choice.again', values: { day: { day: on } } },
    leads: { do: 'record', reports: [report] },
  };
}
