/** What one chunk says: its verb, plots, days, figures, and all that turns its meaning round. */
import type { Activity, Measures } from '../agronomy/season.ts';
import type { Chunk, Link } from './chunk.ts';
import type { Lexicon, Meaning } from './lexicon.ts';
import type { Trouble } from './reading.ts';
import { means, type Node, type PlotsSaid, type Sense, senseOf } from './sense.ts';
import type { Form, Mark } from './word-list.ts';

export interface Head {
  /** Several when the words fit several. */
  readonly activities: readonly Activity[];
  readonly form: Form;
}

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
  readonly plots: PlotsSaid | null;
  /** True when the plots were said before the verb. */
  readonly plotsFirst: boolean;
  readonly morePlots: boolean;
  readonly days: readonly DaySaid[];
  /** Words of a date that make none ("last ight", "in march"). */
  readonly brokenDay: boolean;
  readonly measures: Measures;
  readonly trouble: Trouble | null;
  readonly until: Node | null;
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
  /** The verb hangs on a preposition ("before ploughing"): nothing is said of it. */
  readonly aside: boolean;
  readonly said: string;
}

/** Marks that count only beside the verb or the doer. */
const NEIGHBOURLY = new Set<Mark>(['before', 'towards', 'along', 'asker']);
const MANY_STRANGE = 3;

const marksOf = (node: Node): Mark[] =>
  node.senses.flatMap((sense) => (sense.role === 'mark' ? [sense.value as Mark] : []));

const verbSense = (node: Node): Sense | undefined => senseOf(node, 'act') ?? senseOf(node, 'verb');

type Things = ReadonlySet<string>;

const thingsOf = (nodes: readonly Node[]): Things =>
  new Set(nodes.flatMap((node) => node.senses.flatMap((s) => (s.role === 'thing' ? [s.value] : []))));

/** The first meaning that fits a verb (or none) among these things. */
const meaningOf = (sense: Sense | undefined, things: Things, lexicon: Lexicon): Meaning | undefined =>
  lexicon.meanings.find(
    (meaning) => meaning.verb === sense?.value && (meaning.thing === undefined || things.has(meaning.thing)),
  );

function activitiesOf(sense: Sense | undefined, things: Things, lexicon: Lexicon): readonly Activity[] {
  if (sense?.several) return sense.several;
  const fit = meaningOf(sense, things, lexicon);
  if (fit) return fit.means;
  return sense?.role === 'act' ? [sense.value as Activity] : [];
}

function headOf(nodes: readonly Node[], lexicon: Lexicon): { head: Head; at: number } | null {
  const things = thingsOf(nodes);
  for (const [at, node] of nodes.entries()) {
    const sense = verbSense(node);
    if (!sense) continue;
    const activities = activitiesOf(sense, things, lexicon);
    if (activities.length > 0) return { head: { activities, form: sense.form ?? 'plain' }, at };
  }
  if (things.size === 0 || nodes.some(verbSense)) return null;
  const activities = activitiesOf(undefined, things, lexicon);
  const at = nodes.findIndex((node) => senseOf(node, 'thing'));
  return activities.length > 0 ? { head: { activities, form: 'naming' }, at } : null;
}

/** "the river flooded plot 3": a verb and a thing that together are a trouble. */
function meantTrouble(nodes: readonly Node[], lexicon: Lexicon): Trouble | null {
  const things = thingsOf(nodes);
  const fits = nodes
    .map((node) => verbSense(node))
    .map((sense) => sense && meaningOf(sense, things, lexicon)?.trouble);
  return fits.find((trouble) => trouble !== undefined) ?? null;
}

const ASKING_BESIDE = new Set(['askAlone', 'filler', 'article', 'ask', 'answer']);

function loneAsk(nodes: readonly Node[]): string | null {
  const found = nodes.map((node) => senseOf(node, 'askAlone')).find((sense) => sense !== undefined);
  const alone = nodes.every((node) => node.plots || node.senses.some((s) => ASKING_BESIDE.has(s.role)));
  return found && alone ? found.value : null;
}

const isSlight = (node: Node | undefined): boolean =>
  node !== undefined &&
  !node.strange &&
  node.mark === undefined &&
  node.senses.length > 0 &&
  node.senses.every(
    (s) =>
      s.role === 'filler' ||
      s.role === 'article' ||
      (s.role === 'mark' && (s.value === 'perfect' || s.value === 'self' || s.value === 'asker')),
  );

function neighbour(nodes: readonly Node[], at: number, step: 1 | -1): Node | undefined {
  let i = at + step;
  while (isSlight(nodes[i])) i += step;
  return nodes[i];
}

const isStrange = (node: Node | undefined) => node?.strange === true && node.raw.length > 2;

/** Whether an unknown doer or thing makes the clause doubtful. */
function strangeAt(nodes: readonly Node[], at: number, lexicon: Lexicon): boolean {
  const verb = verbSense(nodes[at]!)?.value;
  const doneByOthers = lexicon.meanings.some((meaning) => meaning.trouble && meaning.verb === verb);
  const strange = nodes.flatMap((node, i) =>
    isStrange(node) && (doneByOthers || !along(nodes, i)) ? [i] : [],
  );
  if (strange.length >= MANY_STRANGE || isStrange(neighbour(nodes, at, 1))) return true;
  return strange.some((i) => i < at || (doneByOthers && along(nodes, i)));
}

/** "with my brother", "by tractor": company and tools do no harm. */
function along(nodes: readonly Node[], at: number): boolean {
  let i = at - 1;
  while (isSlight(nodes[i]) || marksOf(nodes[i] ?? nodes[at]!).includes('others') || isStrange(nodes[i])) {
    if (i < 0) return false;
    i--;
  }
  return means(nodes[i], 'mark', 'along');
}

function allMarks(nodes: readonly Node[], at: number, form: Form | null): Set<Mark> {
  const marks = new Set<Mark>();
  for (const [i, node] of nodes.entries()) {
    for (const mark of marksOf(node)) {
      if (mark === 'others' && (along(nodes, i) || (at >= 0 && i > lastObject(nodes, at)))) continue;
      if (NEIGHBOURLY.has(mark) || (mark === 'if' && means(node, 'date', 'until') && nodes[i + 1]?.said))
        continue;
      marks.add(mark);
    }
  }
  if (form && isInverted(nodes, at, form)) marks.add('question');
  if (form === 'done' && senseOf(neighbour(nodes, at, -1), 'trouble')) marks.add('doubt');
  const mark = towards(nodes, at, form);
  return mark ? marks.add(mark) : marks;
}

/** "to plough" is wanted, "for ploughing" needed; "finished to plough" is neither. */
function towards(nodes: readonly Node[], at: number, form: Form | null): 'want' | 'need' | null {
  if (at < 0 || form === null || form === 'done') return null;
  let i = at - 1;
  while (isSlight(nodes[i]) && !means(nodes[i], 'mark', 'towards')) i--;
  if (!means(nodes[i], 'mark', 'towards') || senseOf(neighbour(nodes, i, -1), 'stage')) return null;
  return form === 'plain' || form === 'same' ? 'want' : 'need';
}

/** "the", "it": a doer's word, and no helping verb. */
const isThe = (node: Node) => senseOf(node, 'article') && !senseOf(node, 'mark');

/** "is plot 3 ploughed", "did I plough": the helping verb before the doer asks, with or without "?". */
function isInverted(nodes: readonly Node[], at: number, form: Form): boolean {
  const first = nodes.findIndex((node) => !senseOf(node, 'greeting'));
  if (first >= at || !means(nodes[first], 'mark', 'asker')) return false;
  const between = nodes.slice(first + 1, at);
  const doer = between.find((node) => !isSlight(node) || means(node, 'mark', 'self'));
  if (between.some((node) => senseOf(node, 'thing') ?? isThe(node)) && form !== 'doing') return true;
  if (doer?.plots) return form === 'done' || form === 'plain';
  return means(doer, 'mark', 'self') || means(doer, 'mark', 'others');
}

/** How far the doer and the thing done reach: to the verb, or to the plots that follow it. */
function lastObject(nodes: readonly Node[], at: number): number {
  let next = at + 1;
  while (isSlight(nodes[next]) || means(nodes[next], 'mark', 'towards')) next++;
  const plots = nodes.findIndex((node, i) => i > at && node.plots !== undefined);
  return Math.max(at, next, plots);
}

function isAside(nodes: readonly Node[], at: number, form: Form | null): boolean {
  if (form === null || form === 'done') return false;
  return means(neighbour(nodes, at, -1), 'mark', 'before');
}

function troubleOf(nodes: readonly Node[], hasHead: boolean): Trouble | null {
  const phrase = nodes.map((node) => senseOf(node, 'trouble')).find((sense) => sense !== undefined);
  if (phrase) return phrase.value as Trouble;
  const alone = nodes.map((node) => senseOf(node, 'troubleAlone')).find((sense) => sense !== undefined);
  if (alone && !hasHead) return alone.value as Trouble;
  const thing = nodes.map((node) => senseOf(node, 'troubleThing')).find((sense) => sense !== undefined);
  const lacks = nodes.some((node) => senseOf(node, 'lacking') || (!hasHead && means(node, 'mark', 'not')));
  return thing && lacks && !hasHead ? (thing.value as Trouble) : null;
}

/** Reads one chunk. */
export function readClause(chunk: Chunk, lexicon: Lexicon): Clause {
  const { nodes } = chunk;
  const found = headOf(nodes, lexicon);
  const at = found?.at ?? -1;
  const form = found?.head.form ?? null;
  const plots = nodes.flatMap((node, i) => (node.plots ? [{ said: node.plots, i }] : []));
  const untilAt = nodes.findIndex((node) => means(node, 'date', 'until'));
  const until = untilAt >= 0 && nodes[untilAt + 1]?.said ? nodes[untilAt + 1]! : null;
  return {
    by: chunk.by,
    sentence: chunk.sentence,
    ending: chunk.ending,
    head: found?.head ?? null,
    marks: allMarks(nodes, at, form),
    stages: nodes.flatMap((node) => node.senses.flatMap((s) => (s.role === 'stage' ? [s.value] : []))),
    plots: plots[0]?.said ?? null,
    plotsFirst: (plots[0]?.i ?? 0) < at,
    morePlots: plots.length > 1,
    days: nodes.flatMap((node, i) => (node.said && node !== until ? [{ node, leading: i < at }] : [])),
    brokenDay: nodes.some((node, i) => isBrokenDay(node, nodes[i + 1])),
    measures: Object.assign({}, ...nodes.map((node) => node.measures ?? {})),
    trouble: meantTrouble(nodes, lexicon) ?? troubleOf(nodes, found !== null),
    until,
    ask: nodes.map((node) => senseOf(node, 'ask')).find((sense) => sense !== undefined)?.value ?? null,
    askAlone: loneAsk(nodes),
    strange: found !== null && (strangeAt(nodes, at, lexicon) || countsStrangers(nodes)),
    emptyVerb: found ? null : (nodes.map(verbSense).find((sense) => sense !== undefined)?.form ?? null),
    purpose: towards(nodes, at, form) !== null,
    thingFirst: nodes.slice(0, Math.max(0, at)).some((node) => senseOf(node, 'thing')),
    aside: isAside(nodes, at, form),
    said: nodes.map((node) => node.raw).join(' '),
  };
}

const DATE_WORDS = new Set(['last', 'next', 'ago', 'day', 'week', 'month', 'broken']);

function isBrokenDay(node: Node, after: Node | undefined): boolean {
  if (node.said || senseOf(node, 'filler')) return false;
  if (isStrange(after) && (means(node, 'date', 'on') || means(node, 'date', 'this'))) return true;
  if (senseOf(node, 'monthName') && !senseOf(node, 'mark')) return true;
  return node.senses.some((s) => s.role === 'date' && DATE_WORDS.has(s.value));
}

/** "ploughed 3 krakas": a bare number before an unknown word may count it. */
function countsStrangers(nodes: readonly Node[]): boolean {
  return nodes.some(
    (node, i) =>
      node.plots?.named === false && isStrange(nodes[i + (means(nodes[i + 1], 'date', 'of') ? 2 : 1)]),
  );
}
