/** Verbs that stand or fall with the one behind them ("চাষ করে মই দিছি", "চাষ আর মই দিছি"), in languages that put verbs last. */
import type { Clause } from './clause.ts';
import type { Form, Mark } from './forms.ts';

const withForm = (clause: Clause, form: Form, marks: Iterable<Mark>): Clause => ({
  ...clause,
  head: { ...clause.head!, form },
  marks: new Set([...clause.marks, ...marks]),
});

/** "মই দিয়ে ৩ নং সমান করলাম": a plot and a day said behind the linking verb are its own too. */
const withPlace = (clause: Clause, next: Clause): Clause => ({
  ...clause,
  plots: clause.plots ?? next.plots,
  days: clause.days.length > 0 ? clause.days : next.days,
});

const isJoined = (next: Clause) => next.by === 'and' || next.by === 'none';

/** "ইউরিয়া ৮ কেজি, পটাশ ৫ কেজি দিছি": what a comma lists before one verb, on the same plot. */
const isListed = (next: Clause) => next.by === 'comma' && next.plots === null;

/** A name of work with nothing said of it, joined to more: the verb behind is for both. */
const isShared = (clause: Clause, next: Clause) =>
  clause.head?.form === 'naming' &&
  clause.stages.length === 0 &&
  clause.marks.size === 0 &&
  (isJoined(next) || isListed(next));

/** "কাটা ও মাড়াই শেষ", "চাষ ও মই শুরু করেছি": a stage behind the last name of work is for all of them. */
const withStages = (clause: Clause, next: Clause): Clause => ({ ...clause, stages: next.stages });

function linked(clause: Clause, next: Clause | undefined): Clause {
  const links = clause.head?.form === 'linking';
  const follows = next !== undefined && next.by !== 'stop' && next.head !== null;
  if (!follows) return links ? withForm(clause, 'plain', ['doubt']) : clause;
  if (!links && !isShared(clause, next)) return clause;
  const denied = next.head!.form === 'not' || next.marks.has('not') || next.marks.has('nothing');
  const placed = links ? withPlace(clause, next) : withStages(clause, next);
  return denied ? withForm(placed, 'plain', ['doubt']) : withForm(placed, next.head!.form, next.marks);
}

/** "৩ নং জমিতে ... এনে চাষ দিলাম": a linking verb that is no work of ours leaves its plot and day to the verb behind it. */
const leadsTo = (clause: Clause, next: Clause | undefined): next is Clause =>
  clause.head === null && clause.emptyVerb === 'linking' && next?.head != null && next.by === 'none';

const withElsewhere = (clause: Clause, before: Clause): Clause =>
  before.marks.has('elsewhere')
    ? { ...clause, marks: new Set([...clause.marks, 'elsewhere'] as const) }
    : clause;

/** The clauses, each linking verb in the form of the verb that it leads to; doubtful where that is denied or lacking. */
export function settleLinks(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  for (const clause of clauses.toReversed()) {
    const next = out[0];
    if (leadsTo(clause, next)) out[0] = withElsewhere(withPlace(next, clause), clause);
    out.unshift(linked(clause, next));
  }
  return out;
}
