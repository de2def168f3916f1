/** The ways of growing that a rulebook tells apart, each with its steps and rules and a title in words. */
import { everyWay } from './every-way.ts';
import { holds, pointOf } from './frame.ts';
import type { Rule, Rulebook, Step } from './rulebook.ts';
import type { Activity, Way } from './season.ts';

/** One table of the rulebook: the ways of growing that share it, and their steps and rules in the book's order. */
export interface WayTable {
  readonly title: string;
  readonly steps: readonly Step[];
  readonly rules: readonly Rule[];
}

/** What a title tells; how a crop ripens is told rule by rule. */
type Told = Exclude<keyof Way, 'ripens'>;

/** The words of a title: values that share a first word are listed behind it. */
const SPOKEN: { readonly [K in Told]: Readonly<Record<Way[K], readonly [string, string?]>> } = {
  tillage: {
    hoe: ['ploughed', 'hoe'],
    animals: ['ploughed', 'animals'],
    'two-wheel': ['ploughed', 'two-wheel tractor'],
    none: ['zero tillage'],
  },
  establishment: { transplant: ['transplanted'], 'wet-seed': ['wet-seeded'] },
  nursery: { 'wet-bed': ['nursery', 'wet bed'], 'dry-bed': ['nursery', 'dry bed'], mat: ['nursery', 'mat'] },
  water: { irrigated: ['irrigated'], 'rain-fed': ['rain-fed'] },
};
const FIELDS = Object.keys(SPOKEN) as readonly Told[];
/** A book without this step does not know the way, whatever else holds for it. */
const PLANTED_BY: Readonly<Record<Way['establishment'], Activity>> = {
  transplant: 'transplant',
  'wet-seed': 'sow-direct',
};
const RIPENING: readonly Way['ripens'][] = ['by-days', 'by-local-date'];

/** The ways of growing that the book tells apart, each with its table; ways whose tables are the same share one. */
export function wayTables(book: Rulebook): readonly WayTable[] {
  const groups = new Map<string, { ways: Way[]; steps: readonly Step[]; rules: readonly Rule[] }>();
  for (const way of everyWay()) {
    if (way.ripens !== 'by-days') continue;
    const steps = book.steps.filter((step) => holds(step.when, way));
    if (!steps.some(({ activity }) => activity === PLANTED_BY[way.establishment])) continue;
    const rules = book.rules.filter(
      ({ when, from, to }) =>
        RIPENING.some((ripens) => holds(when, { ...way, ripens })) &&
        pointOf(steps, from) !== null &&
        pointOf(steps, to) !== null,
    );
    const key = `${steps.map((step) => book.steps.indexOf(step))}; ${rules.map((rule) => book.rules.indexOf(rule))}`;
    const group = groups.get(key) ?? { ways: [], steps, rules };
    group.ways.push(way);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ ways, steps, rules }) => ({ title: titleOf(ways), steps, rules }));
}

/** "Zero tillage, transplanted": a field is named only where some of its values lie outside the group. */
function titleOf(ways: readonly Way[]): string {
  let boxes: readonly (readonly (readonly string[])[])[] = ways.map((way) =>
    FIELDS.map((field) => [way[field]]),
  );
  for (const index of FIELDS.keys()) {
    const merged = new Map<string, (typeof boxes)[number]>();
    for (const box of boxes) {
      const others = JSON.stringify(box.with(index, []));
      merged.set(others, box.with(index, [...(merged.get(others)?.[index] ?? []), ...(box[index] ?? [])]));
    }
    boxes = [...merged.values()];
  }
  const title = boxes.map((box) =>
    FIELDS.flatMap((field, index) => spoken(field, box[index] ?? [])).join(', '),
  );
  const text = title.join('; or ') || 'every way of growing';
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function spoken(field: Told, values: readonly string[]): readonly string[] {
  const words: Readonly<Record<string, readonly [string, string?]>> = SPOKEN[field];
  if (values.length === Object.keys(words).length) return [];
  const details = new Map<string, readonly string[]>();
  for (const [first, detail] of values.flatMap((value) => (words[value] ? [words[value]] : [])))
    details.set(first, [...(details.get(first) ?? []), ...(detail ? [detail] : [])]);
  return [
    [...details]
      .map(([first, more]) => first + (more.length > 0 ? ` (${more.join(', ')})` : ''))
      .join(' or '),
  ];
}
