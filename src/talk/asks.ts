/** Answers to questions: what is next, on which dates, why, which plots, what can be texted. */
import type { PlanStep, PlotPlan } from '../agronomy/plot-plan.ts';
import type { Activity } from '../agronomy/season.ts';
import type { AskReading } from '../hear/reading.ts';
import type { Day } from '../plan/day.ts';
import type { Message } from '../say/message.ts';
import { rainLine } from './next-rain.ts';
import { tellNext } from './next-step.ts';
import { ownPlots } from './own-plots.ts';
import { activityName, doneSentence, doWords, officer, rainBefore, which } from './phrases.ts';
import { planned } from './planned.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { withSize } from './plot-size.ts';
import { findPlots } from './plots.ts';
import { overWords } from './season-over.ts';
import type { Topic } from './state.ts';
import { type Part, saying } from './turn.ts';
import { askWaysOut, tellWaysOut } from './ways-out.ts';
import { answerWhy } from './why.ts';
import type { PlotWorld, World } from './world.ts';

/** Dates told in one text. */
const MOST_DATES = 9;
/** With two plots each has fewer. */
const DATES_OF_TWO = 4;
/** Plots told in one text. */
const MOST_PLOTS = 6;

/** Answers one question; `topic` is what was last spoken of. */
export function answerAsk(world: World, ask: AskReading, topic: Topic | null): Part {
  if (ask.about === 'help') return world.group ? saying('menu.agent') : saying('menu.grower', officer(world));
  if (world.plots.length === 0) return noPlots(world);
  if (ask.about === 'plots') return tellPlots(world);
  const found = findPlots(world, ask.plots);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (ask.about === 'why')
    return answerWhy(world, ask, found.kind === 'plots' ? found.plots[0] : undefined, topic);
  if (ask.about === 'next') return next(world, found.kind === 'plots' ? found.plots : ownPlots(world));
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
  const known = planned(world, plot);
  const { plan } = known;
  const open = plan.steps
    .filter((step) => step.status !== 'done' && step.due !== null && step.activity !== 'manure')
    .filter((step) => !afterUnknownRain(world, plan, step))
    .sort((a, b) => (a.due ?? 0) - (b.due ?? 0))
    .slice(0, most);
  if (open.length === 0) return { say: [overWords(world.rulebook, known, [plot])] };
  const list = open.map(
    ({ activity, due, waitsFor }): Message =>
      waitsFor?.state === 'unknown'
        ? { key: 'dates.step-rain', values: { do: activityName(activity), need: waitsFor.needMm } }
        : { key: 'dates.step', values: { do: activityName(activity), day: { day: due ?? 0 } } },
  );
  const told = saying('dates.plot', { which: which([plot]), steps: { list } });
  const expected = open.some(({ waitsFor }) => waitsFor?.state === 'expected');
  return expected ? { say: [...told.say, { key: 'dates.if-rain' }] } : told;
}

/** Nobody can say when a step comes that follows one which waits for rain. */
function afterUnknownRain(world: World, plan: PlotPlan, step: PlanStep): boolean {
  const waiting = rainBefore(world, plan, step);
  return waiting !== null && waiting !== step;
}

/** When one step is due, or when it was done. */
function dateOf(world: World, plot: PlotWorld, activity: Activity): Part {
  const known = planned(world, plot);
  const { plan } = known;
  const rounds = plan.steps.filter((one) => one.activity === activity);
  const step = rounds.find(({ status }) => status !== 'done') ?? rounds.at(-1);
  if (!step) return saying('dates.no-step', { which: which([plot]), activity: activityName(activity) });
  if (step.status === 'done')
    return { say: [doneSentence(activity, [plot], step.on, 'dates.done', 'dates.done-unknown')] };
  const waiting = rainBefore(world, plan, step);
  if (waiting) return { say: [rainLine(world, known, waiting, [plot])] };
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
        values: { do: doWords(world.rulebook, activity, plot.season.way), day: { day: due ?? world.today } },
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

function tellPlots(world: World): Part {
  const plots = ownPlots(world);
  const shown = plots.slice(0, MOST_PLOTS);
  const say = shown.map((plot): Message => {
    const { steps } = planned(world, plot).plan;
    const done = steps.filter(({ status, implied }) => status === 'done' && !implied);
    const last = done.reduce<PlanStep | null>((a, b) => (a && (a.on ?? 0) > (b.on ?? 0) ? a : b), null);
    const area = plot.season.areaHa;
    const sized = withSize(world, which([plot]), area, shown.length);
    const going = steps.find(({ status }) => status === 'started');
    const state = going?.on != null ? begunWords(going.activity, going.on) : stateWords(last);
    return { key: 'plots.one', values: { which: sized, area, state } };
  });
  const more = plots.length - shown.length;
  return { say: more > 0 ? [...say, { key: 'next.more', values: { count: more } }] : say };
}

const begunWords = (activity: Activity, on: Day): Message => ({
  key: 'plots.state-begun',
  values: { activity: activityName(activity), day: { day: on } },
});

function stateWords(last: PlanStep | null): Message {
  if (!last) return { key: 'plots.state-none' };
  const activity = activityName(last.activity);
  return last.on === null
    ? { key: 'plots.state-unknown', values: { activity } }
    : { key: 'plots.state-done', values: { activity, day: { day: last.on } } };
}
