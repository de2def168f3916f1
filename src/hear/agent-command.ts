/** The agent's commands: a command word first, then a block, a day or the words to pass on; else it is no command. */
import { type Day, dayParts, isoDay } from '../plan/day.ts';
import { blockAt } from './block-name.ts';
import type { AgentReading, Heard } from './reading.ts';
import { findDay } from './said-day.ts';
import { means, type Node, senseOf } from './sense.ts';

type What = AgentReading['what'];

const PHONE_DIGITS = 7;
/** On an agent's phone the number may stand behind the name. */
const PHONE = /\d[\d\s().-]{5,}\d/;
const isEnd = (node: Node | undefined): boolean =>
  node === undefined || node.mark === '.' || node.mark === '!' || node.mark === '?';

const only = (reading: AgentReading): Heard => ({ readings: [reading], unclear: null });

/** What is done for a block, and the day on which. */
function dated(
  what: 'flood' | 'tiller' | 'turns',
  nodes: readonly Node[],
  today: Day,
  names: readonly string[],
): Heard | null {
  const { name, next } = blockAt(nodes, 1, names);
  if (name === null) return null;
  const rest = nodes.slice(next).filter((node) => !means(node, 'date', 'on') && node.mark === undefined);
  const [said, more] = rest;
  const bare = names.length > 0 && !more ? dayOfMonth(said, today) : null;
  if (bare !== null) return only({ kind: 'agent', what, block: name, on: isoDay(bare), assumed: ['month'] });
  if (more || (said && !said.said)) return null;
  if (!said?.said) return only({ kind: 'agent', what, block: name, on: null, assumed: [] });
  const day = findDay(said.said, false, today);
  if ('problem' in day) return { readings: [], unclear: { why: day.problem, choices: [], said: said.raw } };
  const on = day.on === null ? null : isoDay(day.on);
  return only({ kind: 'agent', what, block: name, on, assumed: day.assumed });
}

/** "flood Upper 14": the next 14th. */
function dayOfMonth(node: Node | undefined, today: Day): Day | null {
  const { value } = node ?? {};
  if (value === undefined || node?.said || !Number.isInteger(value) || value < 1 || value > LAST_OF_MONTH)
    return null;
  const days = Array.from({ length: 2 * LAST_OF_MONTH }, (_, ahead) => today + ahead);
  return days.find((day) => dayParts(day).dayOfMonth === value) ?? null;
}

const LAST_OF_MONTH = 31;

function tell(nodes: readonly Node[], text: string, names: readonly string[]): Heard | null {
  const everyone = means(nodes[1], 'plot', 'all');
  const { name, next } = blockAt(nodes, 1, names);
  const count = everyone ? 2 : name === null ? 0 : next;
  if (count === 0) return null;
  if (
    names.length > 0 &&
    means(nodes[count], 'join', 'and') &&
    blockAt(nodes, count + 1, names).name !== null
  )
    return null;
  // Where the block is named first, the command stands behind it.
  const words = text
    .slice(Math.max(...nodes.slice(0, count).map(({ to }) => to)))
    .replace(/^[\s:,-]+/, '')
    .trim();
  if (words === '') return null;
  const target = everyone ? 'all' : name!;
  return only({ kind: 'agent', what: 'tell', block: target, text: words, assumed: [] });
}

function add(nodes: readonly Node[], text: string, names: readonly string[]): Heard | null {
  const first = blockAt(nodes, 1, names);
  const at = first.name === null ? nodes.findIndex((node) => means(node, 'agent', 'block')) : -1;
  const { name } = at < 0 ? first : blockAt(nodes, at, names);
  let end = at;
  while (end > 1 && senseOf(nodes[end - 1], 'article')) end--;
  const from = first.name === null ? nodes[0]! : nodes[first.next - 1]!;
  const rest = text.slice(from.to, at < 0 || name === null ? undefined : nodes[end]!.from).trim();
  const digits = rest.replace(/\D/g, '').length;
  const numbered = /^\+?[\d(]/.test(rest) || (names.length > 0 && PHONE.test(rest));
  if (!numbered || digits < PHONE_DIGITS) return null;
  return only({ kind: 'agent', what: 'add', ...(name !== null && { block: name }), text: rest, assumed: [] });
}

function list(what: What, nodes: readonly Node[], names: readonly string[]): Heard | null {
  const { name, next } = blockAt(nodes, 1, names);
  if (!isEnd(nodes[next])) return null;
  return only(
    name === null ? { kind: 'agent', what, assumed: [] } : { kind: 'agent', what, block: name, assumed: [] },
  );
}

/** "block A ready?", with the block first, as "ready block A"; words passed on and numbers to add stay behind their command. */
function commandFirst(nodes: readonly Node[], names: readonly string[]): readonly Node[] {
  const { name, next } = blockAt(nodes, 0, names);
  if (!means(nodes[0], 'agent', 'block') && !(name !== null && names.includes(name))) return nodes;
  let at = next;
  while (senseOf(nodes[at], 'article') || nodes[at]?.mark === ',') at++;
  const what = senseOf(nodes[at], 'agent')?.value;
  const moves = name !== null && what !== undefined && !['block', 'add'].includes(what);
  return moves ? [nodes[at]!, ...nodes.slice(0, next), ...nodes.slice(at + 1)] : nodes;
}

/** "tell the block A": articles behind the command say nothing. */
function withoutArticles(nodes: readonly Node[]): readonly Node[] {
  const [command, ...rest] = nodes;
  const start = rest.findIndex((node) => node.raw.length < 2 || !senseOf(node, 'article'));
  return command === undefined || start <= 0 ? nodes : [command, ...rest.slice(start)];
}

/** "tomorrow flood A": the day stands behind. */
const dayLast = (nodes: readonly Node[]): readonly Node[] => {
  const [first, ...rest] = nodes;
  return first?.said && rest.length > 0 ? [...rest, first] : nodes;
};

/** "late A please": words at the end that change nothing. */
function withoutManners(nodes: readonly Node[]): readonly Node[] {
  let end = nodes.length;
  const isManners = ({ raw, senses }: Node) =>
    raw.length > 1 &&
    !senses.some(({ role }) => role === 'agent') &&
    senses.some(({ role, value }) => role === 'filler' || value === 'please');
  while (end > 1 && isManners(nodes[end - 1]!)) end -= 1;
  return nodes.slice(0, end);
}

/** An agent's command, or null; `names` are blocks that may be named without the word for block. Nodes with dates grouped; text cleaned. `FLOOD A 12 May` is block A on 12 May. */
export function readAgentCommand(
  said: readonly Node[],
  text: string,
  today: Day,
  names: readonly string[] = [],
): Heard | null {
  const nodes = withoutArticles(commandFirst(dayLast(withoutManners(said)), names));
  const what = senseOf(nodes[0], 'agent')?.value as What | 'block' | undefined;
  switch (what) {
    case 'flood':
      return dated(what, nodes, today, names);
    case 'tell':
      return tell(nodes, text, names);
    case 'add':
      return add(nodes, text, names);
    case 'ready':
    case 'late':
      return list(what, nodes, names);
    case 'turns':
    case 'tiller':
      return list(what, nodes, names) ?? dated(what, nodes, today, names);
    default:
      return null;
  }
}
