/** The rulebook as a Markdown page for an agronomist who reads no code. It knows no language: reasons are looked up. */
import { everyWay } from './every-way.ts';
import { holds, pointOf } from './frame.ts';
import type { Bound, Mark, PointName, Quantity, Rule, Rulebook, Source, Step } from './rulebook.ts';
import type { Activity, Way } from './season.ts';

/** One table of the rulebook: the ways of growing that share it, and their steps and rules in the book's order. */
export interface WayTable {
  readonly title: string;
  readonly steps: readonly Step[];
  readonly rules: readonly Rule[];
}

/** The words of a title: values that share a first word are listed behind it. */
const SPOKEN: { readonly [K in keyof Way]: Readonly<Record<Way[K], readonly [string, string?]>> } = {
  tillage: {
    hoe: ['ploughed', 'hoe'],
    animals: ['ploughed', 'animals'],
    'two-wheel': ['ploughed', 'two-wheel tractor'],
    none: ['zero tillage'],
  },
  establishment: { transplant: ['transplanted'], 'wet-seed': ['wet-seeded'] },
  nursery: { 'wet-bed': ['nursery', 'wet bed'], 'dry-bed': ['nursery', 'dry bed'], mat: ['nursery', 'mat'] },
  ripens: { 'by-days': ['ripens by its days'], 'by-local-date': ['ripens by a local date'] },
  water: { irrigated: ['irrigated'], 'rain-fed': ['rain-fed'] },
};
const FIELDS = Object.keys(SPOKEN) as readonly (keyof Way)[];
/** A book without this step does not know the way, whatever else holds for it. */
const PLANTED_BY: Readonly<Record<Way['establishment'], Activity>> = {
  transplant: 'transplant',
  'wet-seed': 'sow-direct',
};
/** What the table calls a bound that follows the variety, and how its days are found. */
const QUANTITIES: Readonly<Record<Quantity, readonly [string, string]>> = {
  'seedling-age': [
    'best seedling age',
    'the figures `seedling-age.*`, by length of variety (`variety.short-to`, `variety.medium-to`)',
  ],
  maturity: ['days to harvest', "the variety's days + `transplant-shock`, from sowing"],
  'panicle-initiation': [
    'days to panicle initiation',
    "the variety's days + `transplant-shock` - `panicle-before-maturity`, from sowing",
  ],
  variety: ["variety's days", 'from sowing to harvest, as its seller gives them'],
  'panicle-direct': [
    'days to panicle initiation without transplanting',
    "the variety's days - `panicle-before-maturity`, from sowing",
  ],
};
const MARKS: Readonly<Record<Mark, string>> = {
  published: 'published',
  'second-hand': 'second-hand',
  'common-practice': 'common practice',
  'from-memory': 'from memory',
  judgement: 'judgement',
  scheme: "scheme's own",
};

const OPENING = `# The rulebook

Made from the data by \`npm run -s rulebook -- --write\`; changes go into \`src/agronomy/rules/\`.`;

const ownOpening = (scheme: string) => `# The rulebook of ${scheme}

Made from the data and the scheme's file by \`npm run -s rulebook -- --scheme FILE\`; what is the scheme's own is marked so, and changed in its file, in the section \`rulebook\`.`;

const INTRO = `A rule is a gap in days between two points of the work; "-" means no bound. **must** cannot be broken; **should** gives way at a cost; **aim** only prefers. The number before a cost orders the choices: the lowest gives way first. A title names only what makes a difference: no rule depends on the rest.

Sources are marked: ${Object.values(MARKS).join(', ')}. Judgement is Bundline's own choice.`;

/** The ways of growing that the book tells apart, each with its table; ways whose tables are the same share one. */
export function wayTables(book: Rulebook): readonly WayTable[] {
  const groups = new Map<string, { ways: Way[]; steps: readonly Step[]; rules: readonly Rule[] }>();
  for (const way of everyWay()) {
    const steps = book.steps.filter((step) => holds(step.when, way));
    if (!steps.some(({ activity }) => activity === PLANTED_BY[way.establishment])) continue;
    const rules = book.rules.filter(
      ({ when, from, to }) =>
        holds(when, way) && pointOf(steps, from) !== null && pointOf(steps, to) !== null,
    );
    const key = `${steps.map((step) => book.steps.indexOf(step))}; ${rules.map((rule) => book.rules.indexOf(rule))}`;
    const group = groups.get(key) ?? { ways: [], steps, rules };
    group.ways.push(way);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ ways, steps, rules }) => ({ title: titleOf(ways), steps, rules }));
}

/**
 * The whole page; `reason` gives the sentence that says why a rule holds, undefined when there is none. With the name of
 * a scheme it says that the book is that scheme's.
 */
export function rulebookPage(
  book: Rulebook,
  reason: (rule: string) => string | undefined,
  scheme?: string,
): string {
  const ways = wayTables(book);
  const unused = book.rules.filter((rule) => !ways.some(({ rules }) => rules.includes(rule)));
  const figures = Object.entries(book.figures).map(([key, { value, unit, sources }]) => [
    key,
    String(value),
    unit,
    sourcesText(sources),
  ]);
  return (
    [
      scheme === undefined ? OPENING : ownOpening(scheme),
      INTRO,
      ...quantityLines(book.rules),
      ...ways.map(({ title, rules }) => `## Rules: ${title}\n\n${ruleTable(rules, reason)}`),
      ...(unused.length > 0 ? [`## Rules that no way of growing uses\n\n${ruleTable(unused, reason)}`] : []),
      `## Single figures\n\n${table(['figure', 'value', 'unit', 'sources'], figures)}`,
      ...ways.map(({ title, steps }) => `## Steps in order: ${title}\n\n${stepTable(steps)}`),
    ].join('\n\n') + '\n'
  );
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

function spoken(field: keyof Way, values: readonly string[]): readonly string[] {
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

function ruleTable(rules: readonly Rule[], reason: (rule: string) => string | undefined): string {
  const head = [
    'rule',
    'from -> to',
    'at least',
    'best',
    'at most',
    'strength',
    'giving way costs',
    'why',
    'sources',
  ];
  const rows = rules.map((rule) => [
    rule.name,
    `${pointText(rule.from)} -> ${pointText(rule.to)}`,
    ...[rule.lo, rule.aim, rule.hi].map(boundText),
    rule.strength,
    costText(rule),
    reason(rule.name) ?? 'no reason is written yet',
    sourcesText(rule.sources),
  ]);
  return table(head, rows);
}

function stepTable(steps: readonly Step[]): string {
  const rows = steps.map((step, index) => [
    String(index + 1),
    workText(step),
    step.implies.filter((implied) => steps.some(({ activity }) => activity === implied)).join(', ') || '-',
    [
      ...(step.optional ? ['optional: rides along with another step'] : []),
      ...(step.onlyIfBasalAdvised ? ['only where fertiliser at the last puddling is advised'] : []),
      ...(step.graceDays === undefined ? [] : [graceText(step.graceDays)]),
    ].join('; ') || '-',
  ]);
  return table(['', 'step', 'when done, these are done too', 'remarks'], rows);
}

const graceText = (days: number) =>
  days === 0 ? 'not worth doing past its last day' : `worth doing until ${days} days past its last day`;
const workText = ({ activity, round }: { activity: Activity; round?: number }) =>
  activity + (round === undefined ? '' : ` (round ${round})`);
const pointText = (point: PointName) => `${point.at} of ${workText(point)}`;
const sourcesText = (sources: readonly Source[]) =>
  sources.map(({ text, mark }) => `${text} [${MARKS[mark]}]`).join('; ');

/** How the bounds that follow the variety are found: those that some rule uses. */
function quantityLines(rules: readonly Rule[]): readonly string[] {
  const bounds = rules.flatMap(({ lo, aim, hi }) => [lo, aim, hi]);
  const used = new Set(
    bounds.flatMap((bound) => (bound !== null && typeof bound === 'object' ? [bound.of] : [])),
  );
  const lines = [...used].map((of) => `- ${QUANTITIES[of][0]}: ${QUANTITIES[of][1]}`);
  return lines.length > 0 ? [`Days that follow the variety:\n\n${lines.join('\n')}`] : [];
}

function boundText(bound: Bound): string {
  if (bound === null) return '-';
  if (typeof bound === 'number') return String(bound);
  const plus = bound.plus === 0 ? '' : ` ${bound.plus < 0 ? '-' : '+'} ${Math.abs(bound.plus)}`;
  return (
    QUANTITIES[bound.of][0] + plus + (bound.atLeast === undefined ? '' : `, never under ${bound.atLeast}`)
  );
}

function costText({ strength, costLo, costHi, yieldsAt }: Rule): string {
  const parts = [
    ...(costLo ? [`too soon: ${costLo.rank}, ${costLo.text}`] : []),
    ...(costHi ? [`too late: ${costHi.rank}, ${costHi.text}`] : []),
    ...(yieldsAt === undefined
      ? []
      : [`a way out is taken rather than break a rule that costs over ${yieldsAt}`]),
  ];
  return parts.join('; ') || (strength === 'must' ? 'cannot give way' : 'nothing');
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}
