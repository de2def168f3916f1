/** Requests for a sum: a sum's word first and then figures ("seed 0.4"), or a question for one ("how much seed"). */
import type { Activity } from '../agronomy/season.ts';
import type { Form } from './forms.ts';
import type { Lexicon } from './lexicon.ts';
import type { SumName, SumReading } from './reading.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';
import { sumFigures } from './sum-figures.ts';

const LEVEL_SPOTS = 3;
/** N, P2O5 and K2O. */
const NUTRIENTS = 3;

const isLead = (node: Node) =>
  node.mark !== undefined ||
  (node.senses.length > 0 &&
    node.senses.every((s) => s.role === 'filler' || s.role === 'article' || s.role === 'greeting'));

/** Numbers as texted, in order; those of dates too. */
const numbersIn = (nodes: readonly Node[]): number[] =>
  nodes.flatMap((node) => {
    if (node.parts) return [...node.parts];
    return node.value === undefined || !senseOf(node, 'number') ? [] : [node.value];
  });

/** Forms in which work is only named; where verbs do not come last, a form that goes on from another is one too ("kulima"). */
const NAMED: readonly (Form | undefined)[] = ['plain', 'naming', 'doing', 'same', 'present', undefined];
const isNaming = (form: Form | undefined, { verbsLast }: Lexicon) =>
  NAMED.includes(form) || (form === 'linking' && !verbsLast);

/** What a word names as work, by itself; null for none. */
function named(node: Node, lexicon: Lexicon): Activity | null {
  const act = senseOf(node, 'act');
  if (act) return isNaming(act.form, lexicon) ? (act.value as Activity) : null;
  const verb = senseOf(node, 'verb');
  if (!verb || !isNaming(verb.form, lexicon)) return null;
  const alone = lexicon.meanings.find((one) => one.verb === verb.value && one.thing === undefined);
  return alone?.means.length === 1 ? (alone.means[0] ?? null) : null;
}

/** "work plough 3", "people to cut rice": the work that is asked about. */
function workNamed(nodes: readonly Node[], lexicon: Lexicon): Activity | null {
  const things = nodes.map((node) => senseOf(node, 'thing')?.value);
  const verbs = nodes.map((node) => senseOf(node, 'verb')).filter((verb) => isNaming(verb?.form, lexicon));
  const both = lexicon.meanings.find(
    ({ verb, thing, means: work }) =>
      work.length === 1 && thing && things.includes(thing) && verbs.some((one) => one?.value === verb),
  );
  return nodes.map((node) => named(node, lexicon)).find((work) => work !== null) ?? both?.means[0] ?? null;
}

function reading(sum: SumName, nodes: readonly Node[], lexicon: Lexicon): SumReading {
  const { plots, bare, ...figures } = sumFigures(nodes, lexicon, sum);
  const counts = sum === 'germination' ? inOrder(bare, nodes, lexicon) : bare;
  const activity = sum === 'work' ? workNamed(nodes, lexicon) : null;
  const texted = numbersIn(nodes);
  const values = plots.length > 0 ? withoutPlots(texted, plots) : texted;
  return {
    kind: 'sum',
    sum,
    values,
    plots,
    assumed: [],
    bare: counts,
    ...figures,
    ...(activity && { activity }),
  };
}

/**
 * Sprouted first, then out of how many: as they stand where a word or a stroke between them says so ("82 of 100"), else the
 * larger is of how many ("100 seeds, 85 sprouted").
 */
function inOrder(bare: readonly number[], nodes: readonly Node[], { verbsLast }: Lexicon): readonly number[] {
  const [first = 0, second = 0] = bare;
  if (bare.length !== 2 || first <= second || nodes.some(({ parts }) => parts?.length === 2)) return bare;
  const from = nodes.findIndex(({ value }) => value === first);
  const to = nodes.findIndex(({ value }, i) => i > from && value === second);
  const joined = !verbsLast && nodes.slice(from + 1, to).some((node) => !saysSeed(node));
  return joined ? bare : [second, first];
}

/** Words that speak of the seed itself, of sprouting, or of nothing. */
const OF_SEED: readonly Role[] = ['sum', 'sumAsk', 'thing', 'act', 'verb'];
const saysSeed = (node: Node): boolean =>
  node.mark !== undefined || OF_SEED.some((role) => senseOf(node, role) !== undefined);

/** Each plot's number is taken out once. */
function withoutPlots(numbers: readonly number[], plots: readonly string[]): readonly number[] {
  return plots.reduce((left, plot) => {
    const at = left.indexOf(Number(plot));
    return at < 0 ? left : left.toSpliced(at, 1);
  }, numbers);
}

/** "plot 3 phases": where the first word behind a leading plot stands; 0 where none leads. */
function behindPlot(nodes: readonly Node[]): number {
  if (!senseOf(nodes[0], 'plot')) return 0;
  const at = nodes.findIndex((node) => !senseOf(node, 'plot') && node.value === undefined && !isLead(node));
  return Math.max(0, at);
}

/** `nodes` before, `grouped` after plots were joined. */
export function readSum(
  nodes: readonly Node[],
  grouped: readonly Node[],
  lexicon: Lexicon,
): SumReading | null {
  const start = nodes.findIndex((node) => !isLead(node));
  if (start < 0) return null;
  const body = nodes.slice(start);
  const plots = grouped.find((node) => node.plots?.named)?.plots;
  const asked = body.map((node) => senseOf(node, 'sumAsk')).find((sense) => sense !== undefined);
  if (asked) return reading(asked.value as SumName, body, lexicon);
  const tested = testedSeed(body, grouped, lexicon);
  if (tested) return tested;
  const first = behindPlot(body);
  const opening = senseOf(body[first], 'sum')?.value as SumName | undefined;
  if (!opening) return null;
  // "water plot 3 july" asks for the month.
  const ofMonth = opening === 'water' && body.some((node) => senseOf(node, 'monthName'));
  const dated = !ofMonth && grouped.some((node) => node.said && !node.parts);
  // "fertiliser 2 bags plot 3" tells what was put on, or will be.
  const told = grouped.some((node) => node.measures?.amount && !senseOf(node, 'stage'));
  const others =
    dated || body.slice(first + 1).some((node) => isReport(node) && !isAbout(opening, node, lexicon));
  const found = reading(opening, body, lexicon);
  const isNeed = found.values.length >= NUTRIENTS;
  if (
    told &&
    plots &&
    ((opening === 'nutrients' && !isNeed && found.manureT === undefined) || opening === 'seed')
  )
    return null;
  const isVerb = senseOf(body[first], 'act') !== undefined;
  if (others || (isVerb && (opening !== 'level' || !maySurvey(found)))) return null;
  // "plot 3 measures 20 decimals" tells its size.
  if (opening === 'level' && found.areaHa !== undefined && found.depthsCm?.length === 0) return null;
  const alone =
    body.every((node, i) => i === first || isLead(node)) && senseOf(body[first], 'act') === undefined;
  if (alone) return found;
  return found.values.length > 0 || found.plots.length > 0 || plots ? found : null;
}

/** So many are seeds counted out, fewer bags or plots; whether they are enough for a test is the rulebook's to say. */
const SEEDS = 20;

/** "82 out of 100 seeds germinated", "85% germination": a test told in any order, and no other work with it. */
function testedSeed(body: readonly Node[], grouped: readonly Node[], lexicon: Lexicon): SumReading | null {
  if (!body.some((node) => means(node, 'sum', 'germination'))) return null;
  if (grouped.some((node) => node.said && /\d/.test(node.raw) && !node.parts)) return null;
  if (body.some((node, i) => isReport(node) && !isAbout('germination', node, lexicon) && !isOutOf(body, i)))
    return null;
  const found = reading('germination', body, lexicon);
  const counts = found.bare ?? [];
  const isTest = found.percent !== undefined || (counts.length === 2 && Math.max(...counts) >= SEEDS);
  return isTest || isPercentSaid(body, counts) ? found : null;
}

/** "germ 82": one figure right behind the word. */
const isPercentSaid = (body: readonly Node[], counts: readonly number[]): boolean =>
  counts.length === 1 &&
  body.some((node, i) => means(node, 'sum', 'germination') && body[i + 1]?.value === counts[0]);

/** Figures behind "level", unless they count up like plots ("level 1 2 3"). */
const maySurvey = ({ values, plots }: SumReading): boolean =>
  values.length >= LEVEL_SPOTS &&
  (plots.length > 0 || values.some((value, i) => i > 0 && value !== (values[i - 1] ?? 0) + 1));

/** "82 out of 100": of a number there is no lack. */
const isOutOf = (nodes: readonly Node[], at: number) =>
  senseOf(nodes[at], 'lacking') !== undefined && nodes[at + 1]?.value !== undefined;

/** Work that the sum itself is about: work that is named, manure that counts, seed that sprouts. */
function isAbout(opening: SumName, node: Node, lexicon: Lexicon): boolean {
  if (opening === 'nutrients') return means(node, 'act', 'manure');
  if (opening === 'germination') return means(node, 'act', 'pregerminate');
  return opening === 'work' && named(node, lexicon) !== null;
}

const isReport = (node: Node) =>
  senseOf(node, 'act') !== undefined ||
  senseOf(node, 'verb') !== undefined ||
  senseOf(node, 'lacking') !== undefined ||
  senseOf(node, 'ended') !== undefined ||
  senseOf(node, 'trouble') !== undefined ||
  (senseOf(node, 'stage') !== undefined && node.value === undefined) ||
  means(node, 'mark', 'not');
