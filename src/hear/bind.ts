/** Shares plots and days among the clauses of a text: what was said once for several, and what cannot be told apart. */
import type { Clause, DaySaid } from './clause.ts';
import { isStated, mayRepeat, withOwnDay } from './own-days.ts';
import type { Assumed } from './reading.ts';
import { type Said, saysFuture } from './said-day.ts';
import type { PlotsSaid } from './sense.ts';

export interface Bound {
  readonly clause: Clause;
  readonly plots: PlotsSaid | null;
  readonly days: readonly DaySaid[];
  readonly assumed: readonly Assumed[];
  /** Set when the text does not show which day belongs here. */
  readonly unsureDay?: boolean;
  readonly unsurePlots?: boolean;
}

const speaks = (clause: Clause): boolean =>
  clause.head !== null ||
  clause.ask !== null ||
  clause.trouble !== null ||
  clause.emptyVerb !== null ||
  clause.marks.size > 0;

const hasArguments = (clause: Clause) =>
  clause.plots !== null ||
  clause.days.length > 0 ||
  clause.until !== null ||
  Object.keys(clause.measures).length > 0 ||
  clause.stages.length > 0;

function merge(into: Clause, bare: Clause, bareFirst: boolean): Clause {
  return {
    ...into,
    plots: into.plots ?? bare.plots,
    plotsFirst: into.plots ? into.plotsFirst : bareFirst,
    morePlots: into.morePlots || (into.plots !== null && bare.plots !== null),
    days: bareFirst
      ? [...bare.days.map((day) => ({ ...day, leading: true })), ...into.days]
      : [...into.days, ...bare.days],
    measures: { ...bare.measures, ...into.measures },
    until: into.until ?? bare.until,
    stages: [...into.stages, ...bare.stages],
    said: bareFirst ? `${bare.said} ${into.said}` : `${into.said} ${bare.said}`,
  };
}

/** Whether a piece without a verb belongs to the clause after it. */
function goesForward(bare: Clause, before: Clause | undefined, after: Clause | undefined): boolean {
  if (!after || after.by === 'stop') return !before;
  if (!before || bare.by === 'stop') return true;
  if (bare.plots) return before.plots !== null && after.plots === null;
  return bare.days.length > 0 && before.days.length > 0 && after.days.length === 0;
}

/** A second stage with a day of its own repeats the verb before it. */
const repeatsVerb = (bare: Clause, before: Clause | undefined) =>
  before?.head != null && bare.stages.length > 0 && before.stages.length > 0 && bare.days.length > 0;

/** "ploughed plot 2 and half of plot 3": a part of another plot repeats the verb; the day of the first may be both's. */
function withOwnPart(bare: Clause, before: Clause | undefined): Clause | null {
  const partly =
    bare.plots !== null && bare.stages.length > 0 && bare.stages.every((one) => one === 'partly');
  const plain =
    before !== undefined && isStated(before) && before.plots !== null && before.stages.length === 0;
  if (!partly || !plain || (bare.by !== 'and' && bare.by !== 'comma')) return null;
  const unsureDay = before.days.length > 0 && bare.days.length === 0;
  return { ...bare, head: before.head, brokenDay: bare.brokenDay || unsureDay };
}

/** Gives pieces without a verb to the clause they belong to. */
export function attachBare(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  let waiting: Clause | null = null;
  for (const [i, clause] of clauses.entries()) {
    if (speaks(clause)) {
      out.push(waiting ? merge({ ...clause, by: waiting.by }, waiting, true) : clause);
      waiting = null;
    } else if (hasArguments(clause)) {
      const before = out.at(-1);
      const after = clauses.slice(i + 1).find(speaks);
      const repeated = waiting ? null : (withOwnPart(clause, out.at(-1)) ?? withOwnDay(clause, out, after));
      if (repeated) out.push(repeated);
      else if (repeatsVerb(clause, before))
        out.push({ ...clause, head: before!.head, plots: clause.plots ?? before!.plots });
      else if (!mayRepeat(clause, out) && goesForward(clause, before, after))
        waiting = waiting ? merge(waiting, clause, false) : clause;
      else out[out.length - 1] = merge(before!, clause, false);
    } else if (clause.by === 'but' && out.length > 0) {
      out[out.length - 1] = { ...out.at(-1)!, crossed: true };
    }
  }
  return waiting ? [...out, waiting] : out;
}

interface Share {
  readonly plots: PlotsSaid | null;
  readonly assumed: readonly Assumed[];
  readonly unsurePlots?: boolean;
}

const closely = (clause: Clause | undefined) =>
  clause !== undefined && clause.by !== 'stop' && clause.by !== 'start';

/** "plot 2 not yet, will weed it": what is still to do is planned next. */
const isPutOff = (one: Clause, clause: Clause) =>
  one.marks.has('not') && clause.marks.has('future') && one.sentence === clause.sentence;

/** The plots of a clause that names none: the neighbour's that it is joined to. */
function sharePlots(clauses: readonly Clause[], i: number): Share {
  const clause = clauses[i]!;
  if (clause.plots || !clause.head) return { plots: clause.plots, assumed: [] };
  const after = clauses.slice(i + 1).find((one) => one.plots);
  const linked = clauses.slice(i + 1, after ? clauses.indexOf(after) + 1 : i + 1).every(closely);
  const alone = clause.days.every((day) => day.leading) && Object.keys(clause.measures).length === 0;
  const before = clauses.slice(0, i).findLast((one) => one.plots && (one.head || isPutOff(one, clause)));
  const shares = after?.plots && !after.plotsFirst && linked && (after.head || after.emptyVerb);
  const ahead = shares && (alone || !before) ? after : null;
  const next = clauses[i + 1];
  if (ahead && before) {
    if (clause.by === 'and' && next?.by !== 'and' && next?.by !== 'none')
      return { plots: before.plots, assumed: [] };
    if (next?.by === 'and' && clause.by !== 'and') return { plots: ahead.plots, assumed: [] };
    return { plots: null, assumed: [], unsurePlots: true };
  }
  if (ahead) return { plots: ahead.plots, assumed: alone ? [] : ['plots'] };
  if (!before) return { plots: null, assumed: [] };
  return { plots: before.plots, assumed: clause.by === 'and' || clause.by === 'none' ? [] : ['plots'] };
}

const isComing = (clause: Clause, said: readonly DaySaid[], today: number): boolean =>
  clause.marks.has('future') ||
  clause.marks.has('want') ||
  clause.marks.has('need') ||
  clause.head?.form === 'future' ||
  said.some((day) => saysFuture(day.node.said as Said, today));

const isCoupled = (clause: Clause) => clause.by === 'and' || clause.by === 'or';

const isTrailing = (clause: Clause) => clause.days.length === 1 && !clause.days[0]!.leading;

/** A day said once behind several verbs: behind those joined by "and", or at the end of the sentence. */
function trailingDays(rest: readonly Clause[], same: (other: Clause) => boolean): readonly DaySaid[] {
  const dated = rest.findIndex((one) => one.days.length > 0);
  const nearest = rest[dated];
  if (!nearest || !isTrailing(nearest) || !same(nearest)) return [];
  const closes = dated === rest.length - 1;
  return closes || rest.slice(0, dated + 1).every(isCoupled) ? nearest.days : [];
}

/** A day that is today leaves no doubt whether it or today is meant. */
const isToday = ({ node }: DaySaid) => node.said?.kind === 'offset' && node.said.days === 0;

/** The day of a clause that names none: one said before it, or behind it, or none. */
function shareDays(
  clauses: readonly Clause[],
  i: number,
  today: number,
): Pick<Bound, 'days' | 'assumed' | 'unsureDay'> {
  const clause = clauses[i]!;
  if (clause.days.length > 0 || !clause.head) return { days: clause.days, assumed: [] };
  const same = (other: Clause) => isComing(other, other.days, today) === isComing(clause, [], today);
  const inSentence = (one: Clause) => one.sentence === clause.sentence;
  const before = clauses.slice(0, i).findLast((one) => one.days.length > 0 && inSentence(one));
  const led = before?.days[0]?.leading === true && same(before);
  if (led && (before.head || isCoupled(clause))) return { days: before.days, assumed: [] };
  const behind = before ? [] : trailingDays(clauses.slice(i + 1).filter(inSentence), same);
  if (behind.length > 0) return { days: behind, assumed: ['on'] };
  const joined = before !== undefined && same(before) && clause.plots === null && clause.by === 'and';
  const unsureDay = (joined || led) && !before.days.every(isToday);
  return { days: [], assumed: [], unsureDay };
}

/** Every clause with the plots and days it has or shares. */
export function bind(clauses: readonly Clause[], today: number): Bound[] {
  return clauses.map((clause, i) => {
    const plots = sharePlots(clauses, i);
    const days = shareDays(clauses, i, today);
    return { clause, ...plots, ...days, assumed: [...plots.assumed, ...days.assumed] };
  });
}
