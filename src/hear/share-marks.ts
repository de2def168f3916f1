/** Carries "not", "will", "maybe", "if" and the like over to the clauses that they also govern, and questions to what they ask. */
import type { Clause } from './clause.ts';
import type { Form, Mark } from './forms.ts';
import { isStated } from './own-days.ts';
import { shareStages } from './shared-stage.ts';

/** What governs the verbs joined to its own: "will plough and level". */
const CARRIED: readonly Mark[] = ['not', 'nothing', 'future', 'want', 'need', 'question', 'if', 'please'];
/** What also makes a finished thing doubtful: "maybe cleared and ploughed". */
const DOUBTING: readonly Mark[] = ['doubt', 'others', 'question', 'if'];

const withMarks = (clause: Clause, marks: readonly Mark[]): Clause =>
  marks.length === 0 ? clause : { ...clause, marks: new Set([...clause.marks, ...marks]) };

const isJoined = (clause: Clause) =>
  clause.by === 'and' || clause.by === 'or' || clause.by === 'none' || clause.by === 'comma';

const isSelfMade = (clause: Clause) =>
  clause.marks.has('self') || clause.marks.has('perfect') || CARRIED.some((mark) => clause.marks.has(mark));

/** "not cleared and ploughed 3" denies both; with plots of its own the second could be either. */
function afterDenial(clause: Clause, before: Clause): readonly Mark[] {
  if (!before.marks.has('not') && !before.marks.has('nothing')) return [];
  if (clause.by !== 'and' && clause.by !== 'or') return [];
  return before.plots && clause.plots ? ['doubt'] : ['not'];
}

function carried(clause: Clause, before: Clause): readonly Mark[] {
  if (!clause.head || !before.head || !isJoined(clause) || isSelfMade(clause)) return [];
  const doubting = DOUBTING.filter((mark) => before.marks.has(mark));
  if (clause.head.form === 'done')
    return [...afterDenial(clause, before), ...(clause.by === 'comma' ? [] : doubting)];
  if (clause.head.form !== before.head.form && before.head.form === 'done') return [];
  return [...CARRIED.filter((mark) => before.marks.has(mark)), ...doubting];
}

/** "nimelima na kuvuruga" (ploughed, and to puddle): a linking form goes on as the verb that it is joined to; so does "put" in "weeded and put". */
function asBefore(clause: Clause, before: Clause): Clause {
  const { head } = clause;
  const joined = clause.by === 'and' || clause.by === 'or';
  if (head?.form === 'same' && clause.by === 'and' && isStated(before) && before.head?.form === 'done')
    return { ...clause, head: { ...head, form: 'done' } };
  if (head?.form !== 'linking' || !before.head || !joined) return clause;
  const stages = clause.stages.length > 0 || before.head.form !== 'linking' ? clause.stages : before.stages;
  return { ...clause, stages, head: { ...head, form: before.head.form } };
}

/** "drained plot 3 for harvest": what something was done for says nothing of its own. */
const isPurpose = (clause: Clause, before: Clause | undefined) =>
  clause.purpose && clause.by === 'none' && before?.head != null && !before.marks.has('not');

const asks = (clause: Clause) => clause.ask !== null || clause.marks.has('question');

/** In a sentence with a question of its own, "?" leaves what was stated alone: "ploughed 3, what next?". */
function settleQuestions(clauses: readonly Clause[]): Clause[] {
  const asking = new Set(clauses.flatMap((clause) => (asks(clause) ? [clause.sentence] : [])));
  return clauses.map((clause) =>
    clause.ending === '?' && asking.has(clause.sentence) && !asks(clause)
      ? { ...clause, ending: '' }
      : clause,
  );
}

/** "applied top dressing" was done; "broadcast sprouted seed" is doubtful. */
function afterEmptyVerb(clause: Clause, form: Form): Clause {
  const object = clause.head?.form === 'doing' || clause.head?.form === 'naming';
  return clause.head && object ? { ...clause, head: { ...clause.head, form } } : withMarks(clause, ['doubt']);
}

const SHORT_REMARK = 4;

/** "ploughed 3, I think", "ploughed 3. just joking": a remark that makes doubtful what it follows or leads. */
function remarks(clauses: readonly Clause[]): Clause[] {
  const doubting = clauses.filter(
    (one) => !one.head && one.trouble === null && (one.marks.has('doubt') || one.marks.has('others')),
  );
  return clauses.map((clause) => {
    const doubted = doubting.some((one) => one.sentence === clause.sentence || isShortAfter(one, clause));
    return doubted && clause.head ? withMarks(clause, ['doubt']) : clause;
  });
}

const isShortAfter = (remark: Clause, clause: Clause) =>
  remark.sentence === clause.sentence + 1 && remark.said.split(' ').length <= SHORT_REMARK;

/** "sowed nursery and watered it", "made the nursery, broadcast seed": the nursery got the water or the seed, or a plot. */
function besideNursery(clauses: readonly Clause[]): Clause[] {
  return clauses.map((clause, i) => {
    const loose = clause.head?.activities.some((one) => one === 'flood' || one === 'sow-direct');
    const nursery = clauses[i - 1]?.head?.activities.includes('sow-nursery');
    return loose && nursery && clause.plots === null && isJoined(clause)
      ? withMarks(clause, ['doubt'])
      : clause;
  });
}

/** The clauses with what makes them doubtful or asks: all that governs another clause where verbs come last. */
export const shareRemarks = (clauses: readonly Clause[]): Clause[] =>
  settleQuestions(besideNursery(remarks(clauses)));

/** The clauses with all that governs them. */
export function shareMarks(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  for (const clause of shareStages(shareRemarks(clauses))) {
    const before = out.at(-1);
    if (!before) out.push(clause);
    else if (before.emptyVerb && clause.by === 'none') out.push(afterEmptyVerb(clause, before.emptyVerb));
    else if (isPurpose(clause, before)) out.push(...purpose(out.pop()!, clause));
    else out.push(withMarks(asBefore(clause, before), carried(clause, before)));
  }
  return out;
}

/** The plots and days said with a purpose belong to what was done. */
function purpose(before: Clause, clause: Clause): Clause[] {
  const days = before.days.length > 0 ? before.days : clause.days;
  return [
    {
      ...before,
      plots: before.plots ?? clause.plots,
      days,
      measures: { ...clause.measures, ...before.measures },
    },
  ];
}
