/** Answers to questions: what is next, on which dates, why, which plots, what can be texted. */
import { bindingRules } from '../agronomy/plot-file.ts';
import { nextStep, type PlanStep } from '../agronomy/plot-plan.ts';
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Activity } from '../agronomy/season.ts';
import type { AskReading } from '../hear/reading.ts';
import type { Message } from '../say/message.ts';
import { tellNext } from './next-step.ts';
import { activityName, doneSentence, doWords, officer, which } from './phrases.ts';
import { planned } from './planned.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import { type Part, saying } from './turn.ts';
import { askWaysOut } from './ways-out.ts';
import type { PlotWorld, World } from './world.ts';

/** Dates told in one text. */
const MOST_DATES = 5;
/** Plots told in one text. */
const MOST_PLOTS = 6;

/** Answers one question; `topicPlotId` is the plot that was last spoken of. */
export function answerAsk(world: World, ask: AskReading, topicPlotId: string | null): Part {
  if (ask.about === 'help') return saying('menu.grower', officer(world));
  if (world.plots.length === 0) return noPlots(world);
  if (ask.about === 'plots') return tellPlots(world);
  const found = findPlots(world, ask.plots);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  const topic = world.plots.find(({ id }) => id === topicPlotId);
  if (ask.about === 'why') return why(world, found.kind === 'plots' ? found.plots[0] : topic);
  if (ask.about === 'next') return next(world, found.kind === 'plots' ? found.plots : world.plots);
  if (found.kind !== 'plots') return whichPlot(world, [ask]);
  const parts = found.plots
    .slice(0, 2)
    .map((plot) => (ask.activity ? dateOf(world, plot, ask.activity) : dates(world, plot)));
  return { say: parts.flatMap(({ say }) => say), topicPlotId: found.plots[0]?.id ?? '' };
}

function next(world: World, plots: readonly PlotWorld[]): Part {
  const plans = plots.map((plot) => planned(world, plot));
  return (plots.length === 1 ? askWaysOut(world, plans) : null) ?? tellNext(world, plans);
}

/** The coming dates of one plot, soonest first. */
function dates(world: World, plot: PlotWorld): Part {
  const { plan } = planned(world, plot);
  const open = plan.steps
    .filter(({ status, due }) => status !== 'done' && due !== null)
    .sort((a, b) => (a.due ?? 0) - (b.due ?? 0))
    .slice(0, MOST_DATES);
  if (open.length === 0) return saying('next.over', { which: which([plot]) });
  const list = open.map(
    ({ activity, due }): Message => ({
      key: 'dates.step',
      values: { do: activityName(activity), day: { day: due ?? 0 } },
    }),
  );
  return saying('dates.plot', { which: which([plot]), steps: { list } });
}

/** When one step is due, or when it was done. */
function dateOf(world: World, plot: PlotWorld, activity: Activity): Part {
  const { plan } = planned(world, plot);
  const rounds = plan.steps.filter((one) => one.activity === activity);
  const step = rounds.find(({ status }) => status !== 'done') ?? rounds.at(-1);
  if (!step) return saying('dates.no-step', { which: which([plot]), activity: activityName(activity) });
  if (step.status === 'done')
    return { say: [doneSentence(activity, [plot], step.on, 'dates.done', 'dates.done-unknown')] };
  return openDate(world, plot, step);
}

function openDate(world: World, plot: PlotWorld, step: PlanStep): Part {
  const { activity, due, earliest, latest } = step;
  const head: Message = {
    key: 'dates.plot',
    values: {
      which: which([plot]),
      steps: {
        key: 'dates.step',
        values: { do: doWords(world.rulebook, activity), day: { day: due ?? world.today } },
      },
    },
  };
  if (earliest === null || latest === null || latest <= earliest) return { say: [head] };
  return {
    say: [
      head,
      { key: 'dates.window', values: { from: { day: earliest }, to: { day: latest } }, spare: true },
    ],
  };
}

/** The reason behind the next step of the plot: the nearest rule that sets its dates, with its source. */
function why(world: World, plot: PlotWorld | undefined): Part {
  const only = plot ?? (world.plots.length === 1 ? world.plots[0] : undefined);
  const step = only ? nextStep(planned(world, only).plan) : null;
  if (!only || !step) return saying('why.nothing');
  return { say: [reason(world.rulebook, ruleBehind(world.rulebook, step))], topicPlotId: only.id };
}

/** The rule that speaks of the step itself, before rules further along the chain. */
function ruleBehind(book: Rulebook, step: PlanStep): string {
  const binding = bindingRules(step);
  const near = binding.find((name) =>
    book.rules.some((rule) => rule.name === name && touches(rule, step.activity)),
  );
  const own =
    book.rules.find((rule) => rule.to.activity === step.activity) ??
    book.rules.find((rule) => touches(rule, step.activity));
  return near ?? own?.name ?? binding[0] ?? 'today';
}

const touches = (rule: Rulebook['rules'][number], activity: Activity) =>
  rule.to.activity === activity || rule.from.activity === activity;

/** "Why: … (PhilRice, PalayCheck)". */
export function reason(book: Rulebook, rule: string): Message {
  const source = book.rules.find(({ name }) => name === rule)?.sources[0]?.text ?? '';
  const why = { key: `why.${rule}` };
  const named = source.split(':')[0] ?? '';
  return named === ''
    ? { key: 'why.bare', values: { reason: why } }
    : { key: 'why.reason', values: { reason: why, source: named } };
}

function tellPlots(world: World): Part {
  const shown = world.plots.slice(0, MOST_PLOTS);
  const say = shown.map((plot): Message => {
    const done = planned(world, plot).plan.steps.filter(
      ({ status, implied }) => status === 'done' && !implied,
    );
    const last = done.reduce<PlanStep | null>((a, b) => (a && (a.on ?? 0) > (b.on ?? 0) ? a : b), null);
    return {
      key: 'plots.one',
      values: { which: which([plot]), area: plot.season.areaHa, state: stateWords(last) },
    };
  });
  const more = world.plots.length - shown.length;
  return { say: more > 0 ? [...say, { key: 'next.more', values: { count: more } }] : say };
}

function stateWords(last: PlanStep | null): Message {
  if (!last) return { key: 'plots.state-none' };
  const activity = activityName(last.activity);
  return last.on === null
    ? { key: 'plots.state-unknown', values: { activity } }
    : { key: 'plots.state-done', values: { activity, day: { day: last.on } } };
}
