/** What one chunk says: its verb, plots, days, figures, and all that turns its meaning round. */
import type { Measures } from '../agronomy/season.ts';
import { countsStrangers, isSlight, isStrange, onlyCompany, strangeAt } from './beside.ts';
import type { Chunk, Link } from './chunk.ts';
import { allMarks, isAside, isOneAll, towards } from './clause-marks.ts';
import type { Form, Mark } from './forms.ts';
import { goesOn, isCeasing } from './going-on.ts';
import { type Head, headOf, meantTrouble, verbSense } from './head.ts';
import type { Lexicon } from './lexicon.ts';
import type { Trouble } from './reading.ts';
import { means, type Node, type PlotsSaid, senseOf } from './sense.ts';
import { isOfLost, lacksTool, type TroubleSaid, troubleSaid, withoutFailure } from './trouble-said.ts';

export interface DaySaid {
  readonly node: Node;
  /** True when it was said before the verb. */
  readonly leading: boolean;
}

export interface Clause {
  readonly by: Link;
  readonly sentence: number;
  readonly ending: '?' | '!' | '';
  readonly head: Head | null;
  readonly marks: ReadonlySet<Mark>;
  readonly stages: readonly string[];
  /** Whether a stage is said behind the verb ("weeding finished"). */
  readonly stageBehind: boolean;
  readonly plots: PlotsSaid | null;
  /** True when the plots were said before the verb. */
  readonly plotsFirst: boolean;
  readonly morePlots: boolean;
  readonly days: readonly DaySaid[];
  /** Which comes first when there is one group of plots and one day, and no word that is not known. */
  readonly pairing: 'plots-day' | 'day-plots' | null;
  /** Words of a date that make none ("last ight", "in march"). */
  readonly brokenDay: boolean;
  readonly measures: Measures;
  readonly trouble: TroubleSaid | null;
  readonly until: Node | null;
  /** The trouble that its verb is where it lasts until some day, unless it tells of a deed. */
  readonly lasting: { readonly what: Trouble; readonly deed: boolean } | null;
  readonly ask: string | null;
  /** A word that asks when nothing but plots stands beside it ("dates plot 3"). */
  readonly askAlone: string | null;
  /** A stranger, or a word not known, where the doer or the thing done stands. */
  readonly strange: boolean;
  /** A verb that means no work of ours: what follows it may be only its object. */
  readonly emptyVerb: Form | null;
  /** "to plough", "for planting": what something else was done for. */
  readonly purpose: boolean;
  /** What it is made of comes first ("urea put"): no order begins so. */
  readonly thingFirst: boolean;
  /** Followed by "but" and words that say nothing known ("the tractor came but broke down"). */
  readonly crossed: boolean;
  /** Nothing but things, amounts, plots and days ("urea plot 3 1 bag"), perhaps with what they are meant for. */
  readonly listed: boolean;
  /** "For plot 3": what is told of may still be to come. */
  readonly meantFor: boolean;
  /** The verb hangs on a preposition ("before ploughing"): nothing is said of it. */
  readonly aside: boolean;
  readonly said: string;
}

const ASKING_BESIDE = new Set(['askAlone', 'filler', 'article', 'ask', 'answer']);

function loneAsk(nodes: readonly Node[]): string | null {
  const found = nodes.map((node) => senseOf(node, 'askAlone')).find((sense) => sense !== undefined);
  const alone = nodes.every((node) => node.plots || node.senses.some((s) => ASKING_BESIDE.has(s.role)));
  return found && alone ? found.value : null;
}

/** Reads one chunk. */
export function readClause(chunk: Chunk, lexicon: Lexicon): Clause {
  const { nodes } = chunk;
  const on = goesOn(nodes, lexicon);
  const verb = lacksTool(nodes) ? null : headOf(nodes, lexicon);
  const isNone = verb && (isOfLost(nodes, verb.at) || (on && isCeasing(nodes[verb.at], lexicon)));
  const found = isNone ? null : verb;
  const at = found?.at ?? -1;
  const form = found?.head.form ?? null;
  const last = lexicon.verbsLast;
  const plots = withoutWhole(
    nodes.flatMap((node, i) => (node.plots ? [{ said: node.plots, i }] : [])),
    nodes,
    at,
  );
  const until = untilOf(nodes, last ? -1 : 1);
  const marks = withoutFailure(nodes, allMarks(nodes, at, form), found !== null);
  if (on && !found) marks.delete('not');
  return {
    by: chunk.by,
    sentence: chunk.sentence,
    ending: chunk.ending,
    head: found?.head ?? null,
    marks,
    stages: nodes.flatMap((node) =>
      on && isCeasing(node, lexicon) ? [] : node.senses.flatMap((s) => (s.role === 'stage' ? [s.value] : [])),
    ),
    stageBehind: nodes.some((node, i) => i > at && senseOf(node, 'stage') !== undefined),
    plots: plots[0]?.said ?? null,
    plotsFirst: (plots[0]?.i ?? 0) < at,
    morePlots: plots.length > 1,
    days: nodes.flatMap((node, i) =>
      node.said && node !== until ? [{ node, leading: leads(nodes, i, at) }] : [],
    ),
    pairing: pairingOf(nodes),
    brokenDay: nodes.some((node, i) => isBrokenDay(node, nodes[i + 1])),
    measures: measuresOf(nodes),
    trouble: on ? null : troubleSaid(nodes, marks, found !== null, meantTrouble(nodes, lexicon)),
    until,
    lasting: lastingOf(nodes, at, until),
    ask: nodes.map((node) => senseOf(node, 'ask')).find((sense) => sense !== undefined)?.value ?? null,
    askAlone: loneAsk(nodes),
    strange:
      found !== null && (strangeAt(nodes, at, lexicon) || countsStrangers(nodes) || onlyCompany(nodes, at)),
    emptyVerb: verb ? null : (nodes.map(verbSense).find((sense) => sense !== undefined)?.form ?? null),
    purpose: towards(nodes, at, form) !== null,
    thingFirst: !last && nodes.slice(0, Math.max(0, at)).some((node) => senseOf(node, 'thing')),
    crossed: false,
    listed: nodes.every((node) => isListed(node) || means(node, 'mark', 'towards')),
    meantFor: nodes.some((node) => means(node, 'mark', 'towards')),
    aside: isAside(nodes, at, form, last ? 1 : -1),
    said: nodes.map((node) => node.raw).join(' '),
  };
}

/** Whether a day is said before the verb, or first of all where there is none ("yesterday the tractor came"). */
const leads = (nodes: readonly Node[], day: number, verb: number): boolean =>
  verb < 0 ? nodes.slice(0, day).every(isSlight) && !nodes.slice(day + 1).every(isSlight) : day < verb;
/** What stands in a note of how much went where. */
const isListed = (node: Node): boolean =>
  node.mark !== undefined ||
  node.plots !== undefined ||
  node.measures !== undefined ||
  node.said !== undefined ||
  ['thing', 'article'].some((role) => node.senses.some((sense) => sense.role === role)) ||
  means(node, 'date', 'of');

interface PlotsAt {
  readonly said: PlotsSaid;
  readonly i: number;
}

/** "I have all ploughed plot 3": all of that plot, where the word for all stands right before the verb. */
function withoutWhole(plots: readonly PlotsAt[], nodes: readonly Node[], at: number): readonly PlotsAt[] {
  const [first, second, third] = plots;
  const whole = first !== undefined && first.i === at - 1 && isOneAll(nodes[first.i]);
  const one = second !== undefined && second.i > at && !second.said.puzzle && third === undefined;
  return whole && one ? [second] : plots;
}

/** Where it ends: "until Friday", "until 25", behind the day where verbs come last; not "up to 5 cm". */
function untilOf(nodes: readonly Node[], side: 1 | -1): Node | null {
  const at = nodes.findIndex((node) => means(node, 'date', 'until'));
  const end = at < 0 ? undefined : nodes[at + side];
  return end?.said !== undefined || end?.plots?.named === false ? end : null;
}

/** True when the words name whoever did it or what it was done to: "we flooded", "I had it flooded", "flooded plot 3". */
function isDeed(nodes: readonly Node[], at: number, until: Node | null): boolean {
  const doer = nodes.slice(0, at).some((node, i) => {
    const beside = means(nodes[i + 1], 'mark', 'perfect') || nodes.slice(i + 1, at).every(isSlight);
    return means(node, 'mark', 'self') && !senseOf(node, 'article') && beside;
  });
  const end = until ? nodes.indexOf(until) : -1;
  return doer || nodes.slice(at + 1, Math.max(end, at + 2)).some((node) => node !== until && isPlot(node));
}

const isPlot = (node: Node) => node.plots !== undefined || senseOf(node, 'plot') !== undefined;

function lastingOf(nodes: readonly Node[], at: number, until: Node | null): Clause['lasting'] {
  const what = senseOf(nodes[at], 'lasting')?.value as Trouble | undefined;
  return what === undefined ? null : { what, deed: isDeed(nodes, at, until) };
}

/** All that was measured; "2 bags on half an acre" are bags. */
function measuresOf(nodes: readonly Node[]): Measures {
  const [parts, others] = [true, false].map((part) =>
    nodes.filter((node) => (senseOf(node, 'stage') !== undefined) === part),
  );
  return Object.assign({}, ...[...parts!, ...others!].map((node) => node.measures ?? {}));
}

function pairingOf(nodes: readonly Node[]): Clause['pairing'] {
  const plots = nodes.flatMap((node, i) => (node.plots ? [{ node, i }] : []));
  const days = nodes.flatMap((node, i) => (node.said ? [i] : []));
  const [only, day] = [plots[0], days[0]];
  if (!only || day === undefined || plots.length > 1 || days.length > 1) return null;
  if (only.node.plots?.puzzle || only.node.plots?.maybeDay || nodes.some(isStrange)) return null;
  return only.i < day ? 'plots-day' : 'day-plots';
}

const DATE_WORDS = new Set(['last', 'next', 'ago', 'day', 'week', 'month', 'broken']);

function isBrokenDay(node: Node, after: Node | undefined): boolean {
  if (node.said || senseOf(node, 'filler')) return false;
  if (isStrange(after) && (means(node, 'date', 'on') || means(node, 'date', 'this'))) return true;
  if (senseOf(node, 'monthName') && !senseOf(node, 'mark')) return true;
  return node.senses.some((s) => s.role === 'date' && DATE_WORDS.has(s.value));
}
