/** WHY: the shortest chain of reasons behind the advice just given, with its sources and the day that it starts from. */
import { holds } from '../agronomy/frame.ts';
import { nextStep, type PlanStep, type PlotPlan } from '../agronomy/plot-plan.ts';
import type { Rule, Rulebook, Source } from '../agronomy/rulebook.ts';
import type { Activity, Way } from '../agronomy/season.ts';
import type { AskReading } from '../hear/reading.ts';
import type { Message } from '../say/message.ts';
import { type Grown, numbersFor } from './numbers.ts';
import { activityName, doneSentence } from './phrases.ts';
import { type Planned, planned } from './planned.ts';
import type { Topic } from './state.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import { whySum } from './why-sum.ts';
import type { PlotWorld, World } from './world.ts';

/** Sources named in one text. */
const MOST_SOURCES = 2;
/** What a report's measure was judged by: the figure from which WHY takes the source. */
const MEASURED: Readonly<Record<string, string>> = {
  'plough-depth': 'plough-depth.max',
  'level-range': 'level-range.max',
};

/** The reason behind the warning or step last spoken of, or behind the activity asked about. */
export function answerWhy(
  world: World,
  ask: AskReading,
  said: PlotWorld | undefined,
  topic: Topic | null,
): Part {
  const plot = said ?? world.plots.find(({ id }) => id === topic?.plotId) ?? world.plots[0];
  if (!plot) return saying('why.nothing');
  const own = plot.id === topic?.plotId ? topic : null;
  const warned = ask.activity || !own?.rule ? null : own.rule;
  const known = planned(world, plot);
  if (own?.sum && !ask.activity) return { say: [whySum(world, own.sum, plot, own.variant)], topic: own };
  const step = stepAsked(known.plan, ask.activity ?? own?.activity ?? null, ask.activity !== undefined);
  if (warned === null && !step) return ofDoneWork(world, known, ask.activity) ?? saying('why.nothing');
  const warning = warned === null ? [] : [reason(world.rulebook, warned, grownAs(known))];
  const advice = step ? chain(world, known, step) : [];
  const say = warning.length > 0 ? warning : advice;
  return { say, topic: { plotId: plot.id, activity: step?.activity ?? null } };
}

/** Asked about work that is done, or is no step of this plot's: its rule all the same, when there is one. */
function ofDoneWork(world: World, known: Planned, activity: Activity | undefined): Part | null {
  const [rule] = activity ? leadsTo(world.rulebook, activity, known.season.way) : [];
  return rule === undefined ? null : { say: [reason(world.rulebook, rule, grownAs(known))] };
}

const grownAs = ({ season, plan }: Planned): Grown => ({ way: season.way, crop: plan.crop });

function stepAsked(plan: PlotPlan, wanted: Activity | null, named: boolean): PlanStep | null {
  const open = plan.steps.find(({ activity, status }) => activity === wanted && status !== 'done');
  return open ?? (named ? null : nextStep(plan));
}

/** The nearest rule that sets the step's day, what that hangs on in turn, and the report or day that all starts from. */
function chain({ rulebook: book }: World, known: Planned, step: PlanStep): Sentence[] {
  const { plot, plan, season } = known;
  const names = chainOf(book, plan, step, season.way);
  const [first, second] = names.filter((name) => hasReason(name));
  const grown = grownAs(known);
  const say: Sentence[] = [reason(book, first ?? 'today', grown)];
  if (second) say.push({ key: 'why.then', values: { reason: because(book, second, grown) }, spare: true });
  return [...say, ...anchor(plan, plot, names.at(-1))];
}

const hasReason = (name: string) => name !== 'today' && !name.includes(':');

/** "Plot 3 flooded Wed 10 Mar.": the report that the chain starts from. */
function anchor(plan: PlotPlan, plot: PlotWorld, last: string | undefined): Sentence[] {
  const [kind, activity] = last?.split(':') ?? [];
  const step = kind === 'report' ? plan.steps.find((one) => one.activity === activity) : undefined;
  if (!step || step.on === null) return [];
  const sentence =
    step.status === 'started'
      ? {
          key: 'why.begun',
          values: { activity: activityName(step.activity), day: { day: step.on } },
        }
      : doneSentence(step.activity, [plot], step.on, 'why.since', 'why.since');
  return [{ ...sentence, spare: true }];
}

/** Names on the chain, nearest first: a rule that gave way, else those of the bound on which the step is due, else a best gap. */
function chainOf(book: Rulebook, plan: PlotPlan, step: PlanStep, way: Way): readonly string[] {
  const leads = leadsTo(book, step.activity, way);
  const gave = plan.breaches.find(({ rule }) => leads.includes(rule));
  if (gave?.side === 'hi')
    return [...holdsUp(book, step, gave.rule), gave.rule, ...step.earliestBecause.slice(-1)];
  if (gave) return [gave.rule];
  const { due, earliest, latest, earliestBecause, latestBecause } = step;
  if (due !== null && due === earliest && earliestBecause.some(hasReason)) return unordered(earliestBecause);
  if (due !== null && due === latest && latestBecause.some(hasReason)) return unordered(latestBecause);
  return leads.slice(0, 1);
}

/** Dates and rain that hold work up from outside. */
const OUTSIDE = [
  'no-water',
  'no-machine',
  'flooded-out',
  'block-water',
  'water-turn',
  'team-visit',
  'rain-soft',
  'rain-puddle',
  'rain-stands',
];

/** Why the step cannot come sooner: what holds it up from outside, else the rule that takes the longest. */
function holdsUp(book: Rulebook, { earliestBecause }: PlanStep, gave: string): readonly string[] {
  const names = unordered(earliestBecause).filter((name) => hasReason(name) && name !== gave);
  const outside = names.findLast((name) => OUTSIDE.includes(name));
  const days = (name: string) =>
    Math.max(...book.rules.map((rule) => (rule.name === name && typeof rule.lo === 'number' ? rule.lo : 0)));
  const longest = [...names].sort((a, b) => days(b) - days(a));
  return outside ? [outside] : longest.slice(0, 1);
}

const unordered = (names: readonly string[]) => names.map((name) => name.replace(/^order:/, ''));

/** Rules of the way that lead to the step, in the book's order; else those that start from it. */
function leadsTo(book: Rulebook, activity: Activity, way: Way): readonly string[] {
  const own = book.rules.filter(({ when }) => holds(when, way));
  const into = own.filter(({ to }) => to.activity === activity);
  const from = own.filter((rule) => rule.from.activity === activity);
  return (into.length > 0 ? into : from).map(({ name }) => name);
}

/** "Why: … (PhilRice, PalayCheck; common practice)". */
function reason(book: Rulebook, rule: string, grown: Grown): Message {
  const why = because(book, rule, grown);
  const named = sourcesOf(book, rule, grown.way);
  return named === ''
    ? { key: 'why.bare', values: { reason: why } }
    : { key: 'why.reason', values: { reason: why, source: named } };
}

/** The reason of a rule, its numbers being those of the plot. */
function because(book: Rulebook, rule: string, grown: Grown): Message {
  const values = numbersFor(book, `why.${rule}`, grown);
  return { key: `why.${rule}`, ...(Object.keys(values).length > 0 && { values }) };
}

/** The first names of a rule's sources, without what they say; a gate's are those of its figure. */
function sourcesOf(book: Rulebook, name: string, way: Way): string {
  const rule = book.rules.find((one: Rule) => one.name === name && holds(one.when, way));
  const gate = book.rainGates.find((one) => one.rule === name);
  const key = MEASURED[name] ?? gate?.figure;
  const sources: readonly Source[] = rule?.sources ?? (key ? (book.figures[key]?.sources ?? []) : []);
  const names = sources
    .filter(({ mark }) => mark !== 'judgement')
    .map(({ text }) => text.split(':')[0] ?? '');
  return [...new Set(names)].slice(0, MOST_SOURCES).join('; ');
}
