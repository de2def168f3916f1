/** Which unit a word names. One that is a container and a piece of land as well ("2 tins") is told by what the text speaks of. */
import type { Activity } from '../agronomy/season.ts';
import type { Lexicon } from './lexicon.ts';
import { type Node, senseOf } from './sense.ts';
import type { WordList } from './word-list.ts';

export interface UnitSaid {
  readonly name: string;
  readonly kind: WordList['units'][string]['kind'];
  /** Centimetres or hectares in one of it; 1 for the rest. */
  readonly factor: number;
}

/** Work in which something is measured out; in all other work a plot is. */
const MEASURED_OUT: readonly Activity[] = [
  'manure',
  'basal',
  'topdress',
  'pregerminate',
  'sow-nursery',
  'sow-direct',
];

const isMeasuredOut = (activities: readonly string[]) =>
  activities.some((activity) => (MEASURED_OUT as readonly string[]).includes(activity));

/** True for a text about manure, fertiliser or seed, in which a container holds something. */
export function speaksOfAmounts(nodes: readonly Node[], lexicon: Lexicon): boolean {
  return nodes.some((node) => {
    const act = senseOf(node, 'act');
    const [verb, thing] = [senseOf(node, 'verb')?.value, senseOf(node, 'thing')?.value];
    if (act && isMeasuredOut(act.several ?? [act.value])) return true;
    return lexicon.meanings.some(
      (one) => isMeasuredOut(one.means) && (one.thing ? one.thing === thing : one.verb === verb),
    );
  });
}

/** The unit that a word names, of `kind` where it names several; null when it names none. */
export function unitOf(
  node: Node | undefined,
  lexicon: Lexicon,
  kind: UnitSaid['kind'] = 'area',
): UnitSaid | null {
  const units = (node?.senses ?? []).flatMap(({ role, value }) => {
    const unit = role === 'unit' ? lexicon.units[value] : undefined;
    return unit ? [{ name: value, kind: unit.kind, factor: unit.factor }] : [];
  });
  return units.find((unit) => unit.kind === kind) ?? units[0] ?? null;
}
