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
import type { Topic } from './state.ts';
import { type Part, saying } from './turn.ts';
import { askWaysOut, tellWaysOut } from './ways-out.ts';
import type { PlotWorld, World } from './world.ts';

/** Dates told in one text. */
const MOST_DATES = 9;
/** With two plots each has fewer. */
const DATES_OF_TWO = 4;
/** Plots told in one text. */
const MOST_PLOTS = 6;

/** Answers one question; `topic` is what was last spoken of. */
export function answerAsk(world: World, ask: AskReading, topic: Topic | null): Part {
  if (ask.about === 'help') return saying('menu.grower', officer(world));
  if (world.plots.length === 0) return noPlots(world);
  if (ask.about === 'plots') return tellPlots(world);
  const found = findPlots(world, ask.plots);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (ask.about === 'why') return why(world, ask, found.kind === 'plots' ? found.plots[0] : undefined, topic);
  if (ask.about === 'next') return next(world, found.kind === 'plots' ? found.plots : world.plots);
  if (found.kind !== 'plots') return whichPlot(world, [ask]);
  const shown = found.plots.slice(0, 2);
  const most = shown.length === 1 ? MOST_DATES : DATES_OF_TWO;
  const parts = shown.map((plot) =>
    ask.activity ? dateOf(world, plot, ask.activity) : dates(world, plot, most),
  );
  const more = found.plots.length - shown.length;
  if (more > 0) parts.push(saying('next.more', { count: more }));
  return {
    say: parts.flatMap(({ say }) => say),
    topic: { plotId: found.plots[0]?.id ?? '', activity: ask.activity ?? null },
  };
}

function next(world: World, plots: readonly PlotWorld[]): Part {
  const plans = plots.map((plot) => planned(world, plot));
  const question = plots.length === 1 ? askWaysOut(world, plans) : null;
  const told = tellNext(world, plans, { named: true });
  return question ?? { ...told, say: [...tellWaysOut(world, plans), ...told.say] };
}

/** The coming dates of one plot, soonest first. */
function dates(world: World, plot: PlotWorld, most: number): Part {
  const { plan } = planned(world, plot);
  const open = plan.steps
    .filter(({ status, due, activity }) => status !== 'done' && due !== null && activity !== 'manure')
    .sort((a, b) => (a.due ?? 0) - (b.due ?? 0))
    .slice(0, most);
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

/** The reason behind the advised step, or behind the activity asked about: the nearest rule that sets its day, with its source. */
function why(world: World, ask: AskReading, said: PlotWorld | undefined, topic: Topic | null): Part {
  const plot = said ?? world.plots.find(({ id }) => id === topic?.plotId) ?? world.plots[0];
  if (!plot) return saying('why.nothing');
  const { plan } = planned(world, plot);
  const wanted = ask.activity ?? (plot.id === topic?.plotId ? topic.activity : null);
  const open = plan.steps.find(({ activity, status }) => activity === wanted && status !== 'done');
  const step = open ?? (ask.activity ? null : nextStep(plan));
  if (!step) return saying('why.nothing');
  const broken = plan.breaches.map(({ rule }) => rule);
  const say = [reason(world.rulebook, ruleBehind(world.rulebook, step, broken))];
  return { say, topic: { plotId: plot.id, activity: step.activity } };
}

/** A rule that leads to the step and gave way, or binds it; else any that leads to it, else one that starts from it. */
function ruleBehind(book: Rulebook, step: PlanStep, broken: readonly string[]): string {
  const leads = book.rules.filter(({ to }) => to.activity === step.activity).map(({ name }) => name);
  const binding = [...broken, ...bindingRules(step)];
  const starts = book.rules.find(({ from }) => from.activity === step.activity)?.name;
  return binding.find((name) => leads.includes(name)) ?? leads[0] ?? starts ?? binding[0] ?? 'today';
}

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
