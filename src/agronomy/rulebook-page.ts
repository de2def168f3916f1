/** The rulebook as a Markdown page for an agronomist who reads no code. It knows no language: reasons are looked up. */
import type { Bound, PointName, Quantity, RainGate, Rule, Rulebook, Step } from './rulebook.ts';
import type { Activity, Way } from './season.ts';
import { MARKS, sourcesText } from './source-text.ts';
import { wayTables } from './way-tables.ts';

/** What the table calls a bound that follows the variety, and how its days are found. */
const QUANTITIES: Readonly<Record<Quantity, readonly [string, string]>> = {
  'seedling-age': [
    'best seedling age',
    'the figures `seedling-age.*`, by length of variety (`variety.short-to`, `variety.medium-to`)',
  ],
  'seedling-limit': ['longest seedling age', 'the figure `seedling-limit`'],
  'standing-clear': [
    'age at which seedlings stand clear',
    'how far the highest and lowest spot differ / `seedling-growth`, on an uneven plot only',
  ],
  'panicle-to-harvest': ['panicle initiation to harvest', 'the figure `panicle-before-maturity`'],
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

const OPENING = `# The rulebook

Made from the data by \`npm run -s rulebook -- --write\`; changes go into \`src/agronomy/rules/\`.`;

const ownOpening = (scheme: string) => `# The rulebook of ${scheme}

Made from the data and the scheme's file by \`npm run -s rulebook -- --scheme FILE\`; what is the scheme's own is marked so, and changed in its file, in the section \`rulebook\`.`;

const RIPEN: Readonly<Record<Way['ripens'], string>> = {
  'by-days': 'crops that ripen by their days',
  'by-local-date': 'crops that ripen by a local date',
};

const INTRO = `A rule is a gap in days between two points of the work; "-" means no bound. **must** cannot be broken; **should** gives way at a cost; **aim** only prefers. The number before a cost orders the choices: the lowest gives way first. A title names only what makes a difference: no rule depends on the rest.

Sources are marked: ${Object.values(MARKS).join(', ')}. Judgement is Bundline's own choice.`;

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
      ...(book.rainGates.length > 0 ? [`## Work that waits for rain\n\n${gateTable(book)}`] : []),
      `## Single figures\n\n${table(['figure', 'value', 'unit', 'sources'], figures)}`,
      ...ways.map(({ title, steps }) => `## Steps in order: ${title}\n\n${stepTable(steps)}`),
    ].join('\n\n') + '\n'
  );
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
    'only for',
  ];
  const rows = rules.map((rule) => [
    rule.name,
    `${pointText(rule.from)} -> ${pointText(rule.to)}`,
    ...[rule.lo, rule.aim, rule.hi].map(boundText),
    rule.strength,
    costText(rule),
    reason(rule.name) ?? 'no reason is written yet',
    sourcesText(rule.sources),
    onlyFor(rule),
  ]);
  return table(head, rows);
}

function onlyFor({ when, whileOpen }: Rule): string {
  const crops = when?.ripens?.length === 1 && RIPEN[when.ripens[0] as Way['ripens']];
  return [...(crops ? [crops] : []), ...(whileOpen ? ['work still to come'] : [])].join('; ') || 'all';
}

/** Steps of rain-fed plots that wait until so much rain has fallen. */
function gateTable(book: Rulebook): string {
  const mm = (key: string) => `${book.figures[key]?.value} mm (${key})`;
  const rows = book.rainGates.map(({ rule, activity, figure, figureIfExpected, when }: RainGate) => [
    rule,
    activity,
    when.tillage ? when.tillage.join(', ') : 'all',
    mm(figure),
    figureIfExpected ? mm(figureIfExpected) : '-',
  ]);
  return table(['rule', 'step', 'tillage', 'rain in all', 'where the usual rain is known'], rows);
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
