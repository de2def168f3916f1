/** Finds the verb of a clause and the work it means among the things beside it. */
import type { Activity } from '../agronomy/season.ts';
import type { Form } from './forms.ts';
import type { Lexicon, Meaning } from './lexicon.ts';
import type { Trouble } from './reading.ts';
import { type Node, type Sense, senseOf } from './sense.ts';

export interface Head {
  /** Several when the words fit several. */
  readonly activities: readonly Activity[];
  readonly form: Form;
  /** The words name other work, which implies this one. */
  readonly implied?: true;
  /** What it means instead where no plot is named. */
  readonly unplaced?: readonly Activity[];
}

/** The verb that a node carries, with work of its own or without. */
export const verbSense = (node: Node): Sense | undefined => senseOf(node, 'act') ?? senseOf(node, 'verb');

type Things = ReadonlySet<string>;

const thingsOf = (nodes: readonly Node[]): Things =>
  new Set(nodes.flatMap((node) => node.senses.flatMap((s) => (s.role === 'thing' ? [s.value] : []))));

/** The first meaning that fits a verb (or none) among these things. */
const meaningOf = (
  sense: Sense | undefined,
  things: Things,
  lexicon: Lexicon,
  staged = true,
): Meaning | undefined =>
  lexicon.meanings.find(
    (meaning) =>
      !meaning.unplaced &&
      meaning.verb === sense?.value &&
      (meaning.thing === undefined || things.has(meaning.thing)) &&
      (staged || !meaning.staged),
  );

function activitiesOf(
  sense: Sense | undefined,
  things: Things,
  lexicon: Lexicon,
  staged = true,
): readonly Activity[] {
  if (sense?.several) return sense.several;
  const fit = meaningOf(sense, things, lexicon, staged);
  if (fit) return fit.means;
  return sense?.role === 'act' ? [sense.value as Activity] : [];
}

/** A word says how far the work is, and none that it came to grief ("rats finished the nursery"). */
const isStaged = (nodes: readonly Node[]) =>
  nodes.some((node) => senseOf(node, 'stage')) &&
  !nodes.some((node) => senseOf(node, 'trouble') ?? senseOf(node, 'gone') ?? senseOf(node, 'lossPart'));

const unplacedOf = (sense: Sense, lexicon: Lexicon) =>
  lexicon.meanings.find((meaning) => meaning.unplaced && meaning.verb === sense.value)?.means;

/** The first verb that means some work, and where it stands; a thing alone ("urea 2 bags") when there is no verb. */
export function headOf(nodes: readonly Node[], lexicon: Lexicon): { head: Head; at: number } | null {
  const things = thingsOf(nodes);
  for (const [at, node] of nodes.entries()) {
    const sense = verbSense(node);
    if (!sense) continue;
    const activities = activitiesOf(sense, things, lexicon);
    const head = { activities, form: sense.form ?? 'plain' };
    const implied = meaningOf(sense, things, lexicon)?.implied;
    const unplaced = meaningOf(sense, things, lexicon) ? undefined : unplacedOf(sense, lexicon);
    const whole = { ...head, ...(implied && { implied }), ...(unplaced && { unplaced }) };
    if (activities.length > 0) return { head: whole, at };
  }
  if (things.size === 0 || nodes.some(verbSense)) return null;
  const activities = activitiesOf(undefined, things, lexicon, isStaged(nodes));
  const at = nodes.findIndex((node) => senseOf(node, 'thing'));
  const head: Head = { activities, form: 'naming' };
  return activities.length > 0 ? { head, at } : null;
}

/** "the river flooded plot 3": a verb and a thing that together are a trouble. */
export function meantTrouble(nodes: readonly Node[], lexicon: Lexicon): Trouble | null {
  const things = thingsOf(nodes);
  const fits = nodes
    .map((node) => verbSense(node))
    .map((sense) => sense && meaningOf(sense, things, lexicon)?.trouble);
  return fits.find((trouble) => trouble !== undefined) ?? null;
}
