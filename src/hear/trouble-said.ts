/** Which trouble a clause speaks of: whether it has ended, and whether all of a nursery or a crop is lost by it. */

import type { Mark } from './forms.ts';
import { verbSense } from './head.ts';
import type { Lost, Trouble } from './reading.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';

export interface TroubleSaid {
  readonly what: Trouble;
  readonly lost?: Lost;
  readonly over?: true;
}

/** What leaves a statement a statement. */
const STATED: ReadonlySet<Mark> = new Set<Mark>([
  'self',
  'perfect',
  'please',
  'before',
  'towards',
  'along',
  'ours',
]);

const first = (nodes: readonly Node[], role: Role): string | undefined =>
  nodes.map((node) => senseOf(node, role)?.value).find((value) => value !== undefined);

/** "is the water back" asks, with or without "?". */
const isStated = (nodes: readonly Node[], marks: ReadonlySet<Mark>) =>
  [...marks].every((mark) => STATED.has(mark)) && !means(nodes[0], 'mark', 'asker');

/** "no plough": the tool, not the work. */
export function lacksTool(nodes: readonly Node[]): boolean {
  const [lack, tool] = nodes;
  return (
    nodes.length === 2 &&
    senseOf(lack, 'lacking') !== undefined &&
    senseOf(tool, 'troubleThing') !== undefined
  );
}

function lackOf(nodes: readonly Node[], marks: ReadonlySet<Mark>, hasHead: boolean): Trouble | null {
  const phrase = first(nodes, 'trouble');
  if (phrase) return phrase as Trouble;
  if (hasHead) return null;
  const alone = first(nodes, 'troubleAlone');
  if (alone) return alone as Trouble;
  const lacks = nodes.some((node, at) => isLacking(nodes, at, marks) || means(node, 'mark', 'not'));
  return lacks ? ((first(nodes, 'troubleThing') as Trouble | undefined) ?? null) : null;
}

/** What makes of a word for stopping an order or a plan. */
const TO_STOP: readonly Mark[] = ['please', 'future', 'want'];

/** A word that may also order to stop tells of a lack only behind what is lacking, and where nobody is to stop it: "canal stop". */
function isLacking(nodes: readonly Node[], at: number, marks: ReadonlySet<Mark>): boolean {
  if (!senseOf(nodes[at], 'lacking')) return false;
  if (!means(nodes[at], 'account', 'stop')) return true;
  const isToStop =
    TO_STOP.some((mark) => marks.has(mark) && !means(nodes[at], 'mark', mark)) ||
    nodes.some((node) => verbSense(node)?.form === 'future');
  return !isToStop && nodes.slice(0, at).some((node) => senseOf(node, 'troubleThing'));
}

/** "tractor repaired", "we have seed now". */
function endOf(nodes: readonly Node[], marks: ReadonlySet<Mark>): Trouble | null {
  if (!isStated(nodes, marks) || nodes.some((node) => senseOf(node, 'lacking'))) return null;
  const phrase = first(nodes, 'over');
  if (phrase) return phrase as Trouble;
  const things = nodes.flatMap((node) => senseOf(node, 'troubleThing')?.value ?? []);
  const ended = things.find((thing) => nodes.some((node) => means(node, 'ended', thing)));
  return (ended as Trouble | undefined) ?? null;
}

/** Where a word says that something is gone, beside the thing that is; -1 for none. */
function goneAt(nodes: readonly Node[], thing: number): number {
  const whole = means(nodes[thing], 'lossThing', 'whole');
  return nodes.findIndex((node) => means(node, 'gone', 'all') || (whole && means(node, 'gone', 'eaten')));
}

const isPart = (node: Node) =>
  senseOf(node, 'lossPart') !== undefined || means(node, 'stage', 'partly') || means(node, 'stage', 'nearly');

/** What is lost as a whole, by whole phrases or by a thing and a word for being gone. */
export function lossIn(nodes: readonly Node[]): Lost | null {
  if (nodes.some(isPart)) return null;
  const phrase = first(nodes, 'loss');
  if (phrase) return phrase as Lost;
  const thing = nodes.findIndex((node) => senseOf(node, 'lossThing'));
  const gone = thing < 0 ? -1 : goneAt(nodes, thing);
  // "cleared dead rice" and "failed planting rice" lose nothing.
  if (gone < 0 || (gone < thing && nodes.some(verbSense))) return null;
  return means(nodes[thing], 'lossThing', 'seedlings') ? 'seedlings' : 'crop';
}

/** "planted rice died", "the seedlings we planted died": the verb tells which rice, and reports nothing. */
export function isOfLost(nodes: readonly Node[], at: number): boolean {
  if (lossIn(nodes) === null || verbSense(nodes[at]!)?.form !== 'done') return false;
  const gone = nodes.findIndex((node) => senseOf(node, 'gone') ?? senseOf(node, 'loss'));
  const thing = nodes.findIndex((node) => senseOf(node, 'lossThing') ?? senseOf(node, 'loss'));
  return gone > at && (thing === at + 1 || thing < at);
}

/** "seedlings have not died": what is denied is no trouble. */
const isDenied = (nodes: readonly Node[]) =>
  nodes.some((node) => senseOf(node, 'lossThing')) &&
  nodes.some((node) => senseOf(node, 'gone') && !means(node, 'mark', 'not')) &&
  nodes.some((node) => means(node, 'mark', 'not') && !senseOf(node, 'gone'));

/** The marks of a clause without "not" where it only says that a crop has failed, or has not died. */
export function withoutFailure(nodes: readonly Node[], marks: Set<Mark>, hasHead: boolean): Set<Mark> {
  const failed =
    lossIn(nodes) !== null && !nodes.some((node) => means(node, 'mark', 'not') && !senseOf(node, 'gone'));
  if (!hasHead && (failed || isDenied(nodes))) marks.delete('not');
  return marks;
}

/** The trouble of a clause, null for none. `meant` is one that a verb and a thing make together. */
export function troubleSaid(
  nodes: readonly Node[],
  marks: ReadonlySet<Mark>,
  hasHead: boolean,
  meant: Trouble | null,
): TroubleSaid | null {
  if (!hasHead && isDenied(nodes)) return null;
  const lost = isStated(nodes, marks) ? lossIn(nodes) : null;
  const hard = meant ?? (first(nodes, 'trouble') as Trouble | undefined) ?? null;
  if (lost) return { what: hard ?? (lost === 'seedlings' ? 'no-seed' : 'other'), lost };
  const over = hard || hasHead ? null : endOf(nodes, marks);
  if (over) return { what: over, over: true };
  const lack = hard ?? lackOf(nodes, marks, hasHead);
  return lack === null || isEndAsked(nodes, marks) ? null : { what: lack };
}

/** "when is the water back", "if the tractor is repaired": neither a lack nor its end. */
const isEndAsked = (nodes: readonly Node[], marks: ReadonlySet<Mark>) =>
  (marks.has('question') || marks.has('if')) &&
  nodes.some((node) => senseOf(node, 'ended') ?? senseOf(node, 'over'));
