/** Reports of rain ("rain 32 mm yesterday plot 2", "no rain today", "heavy rain"), alone or beside a report of work. */
import type { Day } from '../plan/day.ts';
import { groupDates } from './group-dates.ts';
import { joinHelpers } from './last-verbs.ts';
import type { Lexicon } from './lexicon.ts';
import { readRainPiece } from './rain-piece.ts';
import type { Heard, Reading } from './reading.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';

/** What else a piece may speak of. */
const OTHER: readonly Role[] = [
  'act',
  'verb',
  'trouble',
  'troubleAlone',
  'ask',
  'undo',
  'over',
  'loss',
  'gone',
  'ended',
];
const JOINS = ['and', 'but', 'then'];

const isRain = (node: Node) => senseOf(node, 'rain') !== undefined;
const speaksOfOther = (nodes: readonly Node[]) =>
  nodes.some((node) => !isRain(node) && OTHER.some((role) => senseOf(node, role)));

/** The pieces of a text between punctuation and joining words, which stay at the head of the piece behind them. */
function pieces(nodes: readonly Node[]): Node[][] {
  const out: Node[][] = [[]];
  for (const node of nodes) {
    const asks = senseOf(node, 'ask') !== undefined;
    const cuts = asks || node.mark !== undefined || JOINS.some((join) => means(node, 'join', join));
    if (cuts && out.at(-1)!.length > 0) out.push([]);
    out.at(-1)!.push(node);
  }
  return out;
}

/** Where the pieces of rain begin and end: all of them, or as far as no other thing is spoken of. */
function stretch(all: readonly (readonly Node[])[]): { from: number; to: number } | null {
  const from = all.findIndex((piece) => piece.some(isRain));
  if (from < 0 || speaksOfOther(all[from]!)) return null;
  if (!all.some(speaksOfOther)) return { from: 0, to: all.length };
  let to = from + 1;
  while (to < all.length && !speaksOfOther(all[to]!) && all[to]![0]?.mark !== '.') to++;
  return { from, to };
}

/** Water that came with the rain: whether anybody let it in is asked. */
function floodedByRain(rest: Heard): Heard {
  const flooded = rest.readings.find(
    (one) =>
      one.kind === 'report' && ['flood', 'soak'].includes(one.activity) && !one.assumed.includes('activity'),
  );
  if (!flooded || !('plots' in flooded)) return rest;
  const trouble: Reading = {
    kind: 'trouble',
    what: 'flooded-out',
    plots: flooded.plots ?? [],
    until: null,
    assumed: [],
  };
  return { readings: [], unclear: { why: 'two-meanings', choices: [trouble, flooded] } };
}

/**
 * What a text says of rain, with what `read` makes of the rest; null when it does not report rain. A figure beside other
 * reports is a reading of its own; rain without a figure is then only told, and leaves no reading.
 */
export function readRain(
  nodes: readonly Node[],
  lexicon: Lexicon,
  today: Day,
  read: (rest: readonly Node[]) => Heard,
): Heard | null {
  const all = pieces(nodes);
  const helped = all.map((piece) => joinHelpers(piece, lexicon));
  const found = stretch(helped);
  if (!found) return null;
  const piece = helped.slice(found.from, found.to).flat();
  const heard = readRainPiece(piece, groupDates(piece, lexicon), today);
  const rest = [...all.slice(0, found.from), ...all.slice(found.to)].flat();
  if (!heard || rest.length === 0 || heard.unclear) return heard;
  const [rain] = heard.readings;
  if (rain?.kind !== 'sum' || rain.values.includes(0)) return null;
  const other = floodedByRain(read(rest));
  if (other.unclear || rain.values.length === 0) return other;
  return {
    readings: found.from === 0 ? [rain, ...other.readings] : [...other.readings, rain],
    unclear: null,
  };
}
