/** What turns a clause's meaning round: denial, future, question, doubt, and whose doing it was. */
import { along, isSlight, neighbour } from './beside.ts';
import type { Form, Mark } from './forms.ts';
import { verbSense } from './head.ts';
import { means, type Node, senseOf } from './sense.ts';

/** Marks that count only beside the verb or the doer. */
const NEIGHBOURLY = new Set<Mark>(['before', 'towards', 'along', 'asker']);
const marksOf = (node: Node): Mark[] =>
  node.senses.flatMap((sense) => (sense.role === 'mark' ? [sense.value as Mark] : []));

/** Every mark of a clause whose verb stands at `at` (-1 for none). */
export function allMarks(nodes: readonly Node[], at: number, form: Form | null): Set<Mark> {
  const marks = new Set<Mark>();
  for (const [i, node] of nodes.entries()) {
    for (const mark of marksOf(node)) {
      if (
        mark === 'others' &&
        (along(nodes, i) || (at >= 0 && i > lastObject(nodes, at) && !isOwner(nodes, i)))
      )
        continue;
      if (mark === 'others' && isDoneForUs(nodes, i)) continue;
      if (mark === 'if' && i === nodes.length - 1 && at >= 0 && i !== at) continue;
      if (NEIGHBOURLY.has(mark) || (mark === 'if' && means(node, 'date', 'until') && nodes[i + 1]?.said))
        continue;
      marks.add(mark);
    }
  }
  if (form ? isDoubtful(nodes, at, form, marks) : nodes.some((node) => means(node, 'answer', 'no')))
    marks.add('doubt');
  if (form && isInverted(nodes, at, form)) marks.add('question');
  const mark = towards(nodes, at, form);
  return mark ? marks.add(mark) : marks;
}

/** "plot 3 of the neighbour": whose plot it was. */
const isOwner = (nodes: readonly Node[], i: number) => {
  const owned = nodes.findIndex((node) => node.plots !== undefined || senseOf(node, 'plot'));
  return owned >= 0 && owned < i && means(neighbour(nodes, i, -1), 'date', 'of');
};
/** "my husband ploughed" in a language whose verb says that it was somebody else. */
const isDoneForUs = (nodes: readonly Node[], at: number) =>
  (verbSense(nodes[at]!) ?? senseOf(nodes[at], 'stage')) !== undefined &&
  nodes.some((node) => means(node, 'mark', 'ours'));

/** Whether something beside the verb makes it unlikely to report. */
function isDoubtful(nodes: readonly Node[], at: number, form: Form, marks: ReadonlySet<Mark>): boolean {
  const refused = nodes.some((node) => means(node, 'answer', 'no') && !senseOf(node, 'mark'));
  if (refused && !marks.has('not')) return true;
  if (nodes.some((node) => senseOf(node, 'undo') ?? means(node, 'account', 'stop'))) return true;
  if (nodes.some((node, i) => node.said && means(nodes[i - 1], 'date', 'by'))) return true;
  if (senseOf(neighbour(nodes, at, -1), 'trouble')) return true;
  return form === 'naming'
    ? isLacking(nodes) || hasCome(nodes)
    : form === 'done' && isCausative(nodes, marks);
}

/** One word for all plots ("everything"), where several could also say "all of". */
export const isOneAll = (node: Node | undefined): boolean =>
  node?.plots?.ids[0] === 'all' && !node.raw.includes(' ');

/** "have plot 3 ploughed": an order, or "I had it ploughed"; "have all ploughed" is neither. */
const isCausative = (nodes: readonly Node[], marks: ReadonlySet<Mark>) =>
  means(nodes[0], 'mark', 'perfect') &&
  !marks.has('self') &&
  nodes[1]?.plots !== undefined &&
  !isOneAll(nodes[1]);

/** "urea is finished": put on, or run out. */
const isLacking = (nodes: readonly Node[]) =>
  nodes.some((node) => senseOf(node, 'troubleThing')) && nodes.some((node) => senseOf(node, 'lacking'));

/** "to plough" is wanted, "for ploughing" needed; "finished to plough" is neither. */
export function towards(nodes: readonly Node[], at: number, form: Form | null): 'want' | 'need' | null {
  if (at < 0 || form === null || form === 'done' || form === 'going') return null;
  let i = at - 1;
  while (isSlight(nodes[i]) && !means(nodes[i], 'mark', 'towards')) i--;
  if (!means(nodes[i], 'mark', 'towards') || senseOf(neighbour(nodes, i, -1), 'stage')) return null;
  return form === 'plain' || form === 'same' ? 'want' : 'need';
}

/** "manure arrived": it is there, not yet on the plot. */
const hasCome = (nodes: readonly Node[]) =>
  nodes.some((node) => senseOf(node, 'ended') && !senseOf(node, 'stage'));

/** "the", "it": a doer's word, and no helping verb. */
const isThe = (node: Node) => senseOf(node, 'article') && !senseOf(node, 'mark');

/** "is plot 3 ploughed", "is 1 bag urea enough", "did I plough": the helping verb before the doer asks, with or without "?". */
function isInverted(nodes: readonly Node[], at: number, form: Form): boolean {
  const first = nodes.findIndex((node) => !senseOf(node, 'greeting'));
  const helps = means(nodes[first], 'mark', 'perfect') && means(nodes[first + 1], 'mark', 'self');
  if (first >= at || !(helps || means(nodes[first], 'mark', 'asker'))) return false;
  if (form === 'naming' && !senseOf(nodes[first], 'stage')) return true;
  const between = nodes.slice(first + 1, at);
  const doer = between.find((node) => !isSlight(node) || means(node, 'mark', 'self'));
  if (between.some((node) => senseOf(node, 'thing') ?? isThe(node)) && form !== 'doing') return true;
  if (doer?.plots) return form !== 'doing' || nodes.some((node) => means(node, 'stage', 'finished'));
  return means(doer, 'mark', 'self') || means(doer, 'mark', 'others');
}

/** How far the doer and the thing done reach: to the verb, or to the plots that follow it. */
function lastObject(nodes: readonly Node[], at: number): number {
  let next = at + 1;
  while (isSlight(nodes[next]) || means(nodes[next], 'mark', 'towards')) next++;
  const plots = nodes.findIndex((node, i) => i > at && node.plots !== undefined);
  return Math.max(at, next, plots);
}

/** "before ploughing": the verb hangs on a word before it, or behind it (1) where verbs come last; "will plough later" hangs on none. */
export function isAside(nodes: readonly Node[], at: number, form: Form | null, side: 1 | -1): boolean {
  if (form === null || form === 'done' || form === 'future') return false;
  return means(neighbour(nodes, at, side), 'mark', 'before');
}
