/** One piece of a text that speaks of rain and no work: a report of rain, a question back, or none of ours. */
import { type Day, isoDay } from '../plan/day.ts';
import { isStrange } from './beside.ts';
import type { Mark } from './forms.ts';
import { groupPlots } from './group-plots.ts';
import { type RainFigures, rainFigures } from './rain-figures.ts';
import type { Heard, SumReading } from './reading.ts';
import { findDay, saysFuture } from './said-day.ts';
import { means, type Node, senseOf } from './sense.ts';

/** Whoever asks, doubts, hopes or speaks of other people reports no rain here. */
const REFUSED: readonly Mark[] = [
  'question',
  'doubt',
  'if',
  'others',
  'future',
  'want',
  'need',
  'elsewhere',
  'nothing',
];
const SPANS = ['day', 'week', 'month'];
/** What may stand beside "no rain" where it tells of one day; anything more is a lack of rain. */
const PLAIN: readonly Mark[] = ['self', 'perfect', 'along', 'asker'];

const rain = (node: Node, value: string) => means(node, 'rain', value);
const marksOf = (node: Node) => node.senses.flatMap((s) => (s.role === 'mark' ? [s.value as Mark] : []));

/** True when the words report no rain that has fallen. */
function isRefused(nodes: readonly Node[], dated: readonly Node[]): boolean {
  const doer = nodes.findIndex((node) => isStrange(node));
  const first = nodes.findIndex(
    (node) => senseOf(node, 'rain') ?? (node.value !== undefined ? node : undefined),
  );
  return (
    nodes.some((node) => node.mark === '?' || rain(node, 'coming')) ||
    dated.some((node) => marksOf(node).some((mark) => REFUSED.includes(mark) && !senseOf(node, 'rain'))) ||
    (doer >= 0 && doer < first)
  );
}

/** "no rain for 2 weeks", "still no rain", "no rain since Monday": a lack, not the figure of a day. */
function isLack(nodes: readonly Node[], dated: readonly Node[]): boolean {
  const bare = dated.filter((node) => !node.said && !senseOf(node, 'rain'));
  const spans = bare.some((node) => !nodes.includes(node) || SPANS.some((span) => means(node, 'date', span)));
  const since = nodes.some((node) => marksOf(node).includes('before'));
  const more = bare.some(
    (node) =>
      node.strange ||
      senseOf(node, 'stage') !== undefined ||
      senseOf(node, 'join') !== undefined ||
      marksOf(node).some((mark) => !PLAIN.includes(mark)),
  );
  return spans || since || more || dated.some((node) => node.said && !isOneDay(node));
}

const isOneDay = ({ said }: Node) =>
  said?.kind === 'offset' || said?.kind === 'either' || said?.kind === 'weekday' || said?.kind === 'date';

function reading(figures: RainFigures, values: readonly number[], on: Day | null): SumReading {
  const { plots, unit } = figures;
  return {
    kind: 'sum',
    sum: 'rain',
    values,
    plots,
    ...(on !== null && { on: isoDay(on) }),
    ...(unit !== null && { unit }),
    assumed: [],
  };
}

/** The reading with its day, or the question which day is meant. */
function onDay(figures: RainFigures, values: readonly number[], dated: readonly Node[], today: Day): Heard {
  const days = dated.filter((node) => node.said);
  const found = days.map((node) => findDay(node.said!, true, today));
  const at = found.findIndex((one) => 'problem' in one);
  const problem = found[at];
  if (problem && 'problem' in problem)
    return { readings: [], unclear: { why: problem.problem, choices: [], said: days[at]!.raw } };
  const [first, ...others] = found.map((one) => ('on' in one ? one.on : null));
  if (others.some((day) => day !== first))
    return { readings: [], unclear: { why: 'which-day', choices: [] } };
  return { readings: [reading(figures, values, first ?? null)], unclear: null };
}

/** "rain 12 tomorrow": what has not fallen yet is no figure. */
const ahead = ({ raw }: Node): Heard => ({
  readings: [],
  unclear: { why: 'future-date', choices: [], said: raw },
});

/** Words that may stand between the rain and its plot. */
const isLeading = (node: Node) =>
  means(node, 'date', 'on') ||
  senseOf(node, 'filler') !== undefined ||
  senseOf(node, 'article') !== undefined;

/** The word alone, with a day or a plot at most: its figure is asked for. */
const isAlone = (dated: readonly Node[]) =>
  groupPlots(dated).every((node) => senseOf(node, 'rain') ?? node.said ?? (node.plots || isLeading(node)));

/** What the nodes of a piece say of rain, before (`nodes`) and after (`dated`) its days were joined; null for nothing. */
export function readRainPiece(nodes: readonly Node[], dated: readonly Node[], today: Day): Heard | null {
  if (isRefused(nodes, dated)) return null;
  const figures = rainFigures(dated);
  const coming = dated.find((node) => node.said && saysFuture(node.said, today));
  if (coming) return figures?.values.length ? ahead(coming) : null;
  if (!figures) return null;
  const none = nodes.some((node) => rain(node, 'none'));
  const denied = dated.some((node) => marksOf(node).includes('not') && !senseOf(node, 'rain'));
  if (none)
    return isLack(nodes, dated) || figures.values.length > 0 ? null : onDay(figures, [0], dated, today);
  const fell = isAlone(dated) || figures.values.length > 0 || nodes.some((node) => rain(node, 'fell'));
  const strange = figures.values.length === 0 && nodes.some(isStrange);
  return fell && !denied && !strange ? onDay(figures, figures.values, dated, today) : null;
}
