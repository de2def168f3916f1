/** What an agent's phone is heard for beside a grower's: codes, changes of people, lists; blocks by their names alone. */
import type { Day } from '../plan/day.ts';
import { readAgentCommand } from './agent-command.ts';
import type { AgentOnly } from './agent-only.ts';
import { agentWord, behindEveryone } from './agent-words.ts';
import { blockIn } from './block-name.ts';
import { groupDates } from './group-dates.ts';
import { groupPlots } from './group-plots.ts';
import type { Lexicon } from './lexicon.ts';
import type { AgentReading, Heard } from './reading.ts';
import { means, type Node } from './sense.ts';
import { trim } from './trim.ts';

/** A code alone, as it is texted: "48213", "ok 48213". */
const CODE_ALONE =
  /^(?:\p{L}[\p{L}\p{M}]{0,7}[^\p{L}\p{Nd}]+)?[^\p{L}\p{Nd}]*(\d{5})[^\p{L}\p{Nd}]*(?:\p{L}[\p{L}\p{M}]{0,7}[^\p{L}\p{Nd}]*)?$/u;
const CODE = /(?<!\d)(\d{3,8})(?!\d)/;
/** A phone number in a text. */
const PHONE = /\+?\(?\d[\d\s().-]{6,}\d/;
/** Words of a block's name, with what stands before it. */
const MOST_OF_NAME = 5;
/** Longer than this beside a word that is a whole command, and it was no command. */
const MOST_BESIDE = 2;

/** Reads a cleaned text; null when it is none of these. `nodesIn` makes the nodes of a piece of text. */
export function hearAgentPhone(
  cleaned: string,
  nodesIn: (text: string) => readonly Node[],
  lexicon: Lexicon,
  today: Day,
  blocks: readonly string[],
): Heard | null {
  const alone = CODE_ALONE.exec(cleaned)?.[1];
  if (alone !== undefined) return only({ kind: 'agent', what: 'code', text: alone, assumed: [] });
  const read = (text: string, nodes: readonly Node[]) =>
    readAgentCommand(groupDates(nodes, lexicon), text, today, blocks);
  const nodesOfAll = nodesIn(cleaned);
  const readings = [trim(nodesOfAll), withoutGreeting(nodesOfAll)].map((nodes) => read(cleaned, nodes));
  const command = readings.find(hasBlock) ?? readings.find((one) => one !== null) ?? null;
  // What is told may hold any words.
  if (isTold(command)) return command;
  const isOnly = (rest: string) => {
    const nodes = nodesIn(rest);
    return nodes.length <= MOST_OF_NAME && (blockIn(nodes, blocks) !== null || plotsIn(nodes).length > 0);
  };
  const found = agentWord(cleaned, lexicon, isOnly);
  if (found) {
    const { what, rest } = found;
    const nodes = nodesIn(rest);
    const own = readOwn(what, rest, nodes, blocks);
    const heard = own
      ? only(own)
      : (read(rest, [commandNode(what), ...nodes]) ?? toEveryone(what, rest, lexicon));
    if (heard) return heard;
  }
  return command ?? tellEveryone(cleaned, nodesIn, lexicon);
}

/** A block's name behind a greeting is nobody's. */
const withoutGreeting = (nodes: readonly Node[]): readonly Node[] => {
  const start = nodes.findIndex(
    ({ mark, senses }) =>
      mark === undefined && !senses.some(({ role }) => role === 'greeting' || role === 'filler'),
  );
  return start < 0 ? [] : nodes.slice(start);
};

const hasBlock = (heard: Heard | null) =>
  heard?.readings.some((one) => one.kind === 'agent' && one.block !== undefined);

const isTold = (heard: Heard | null) =>
  heard?.readings.some((one) => one.kind === 'agent' && one.what === 'tell');

/** "tell everybody: …", with the command's own word. */
function tellEveryone(
  cleaned: string,
  nodesIn: (text: string) => readonly Node[],
  lexicon: Lexicon,
): Heard | null {
  const [first] = trim(nodesIn(cleaned));
  const isTell = first !== undefined && means(first, 'agent', 'tell');
  const said = isTell ? toEveryone('tell', cleaned.slice(first.to), lexicon) : null;
  if (said) return said;
  // "everybody tell: …", where verbs come last.
  const behind = behindEveryone(cleaned, lexicon);
  const [verb] = behind === null ? [] : nodesIn(behind);
  if (behind === null || !verb || !means(verb, 'agent', 'tell')) return null;
  return told(behind.slice(verb.to));
}

function toEveryone(what: AgentOnly, rest: string, lexicon: Lexicon): Heard | null {
  const words = what === 'tell' ? behindEveryone(rest, lexicon) : null;
  return words === null ? null : told(words);
}

/** Words for everybody; null where there are none. */
function told(said: string): Heard | null {
  const words = said.replace(/^[\s:,-]+/, '').trim();
  return words === '' ? null : only({ kind: 'agent', what: 'tell', block: 'all', text: words, assumed: [] });
}

/** Stands for a command that was named by another word. */
const commandNode = (what: AgentOnly): Node => ({
  senses: [{ role: 'agent', value: what }],
  from: 0,
  to: 0,
  raw: '',
  glued: false,
});

const only = (reading: AgentReading): Heard => ({ readings: [reading], unclear: null });

function readOwn(
  what: AgentOnly,
  rest: string,
  nodes: readonly Node[],
  blocks: readonly string[],
): AgentReading | null {
  const block = blockIn(nodes, blocks);
  const base = { kind: 'agent' as const, what, ...(block !== null && { block }), assumed: [] };
  switch (what) {
    case 'code': {
      const code = CODE.exec(rest)?.[1];
      return code === undefined ? null : { ...base, text: code };
    }
    case 'move':
    case 'remove': {
      const phone = PHONE.exec(rest)?.[0];
      const plots = phone === undefined ? plotsIn(nodes) : plotsIn(nodes).filter((one) => /\D/.test(one));
      if (phone === undefined && plots.length === 0) return null;
      return { ...base, plots, ...(phone !== undefined && { text: phone }) };
    }
    case 'more':
    case 'digest':
    case 'steps':
    case 'stopped':
      if (plotsIn(nodes).length > 0) return null;
      return block !== null || nodes.length <= MOST_BESIDE ? base : null;
    case 'flood':
    case 'tell':
    case 'ready':
    case 'late':
    case 'turns':
    case 'tiller':
      return null;
  }
}

const plotsIn = (nodes: readonly Node[]): readonly string[] =>
  groupPlots(nodes).flatMap(({ plots, label }) => plots?.ids ?? (label === undefined ? [] : [label]));

/** Commands that say too little; the answer says how they go on. */
const BEGUN = ['flood', 'tell', 'ready', 'late', 'turns', 'tiller', 'add', 'move', 'remove'] as const;
/** A text of more words than this says something else. */
const MOST_BEGUN = 8;

/** A command that was begun and not understood, with its block as it was written; null when the text begins with none. */
export function begunCommand(
  cleaned: string,
  nodesIn: (text: string) => readonly Node[],
  lexicon: Lexicon,
  blocks: readonly string[],
): Heard | null {
  const nodes = trim(nodesIn(cleaned));
  if (nodes.length > MOST_BEGUN) return null;
  const found = agentWord(cleaned, lexicon, () => false);
  const named = BEGUN.find((one) => means(nodes[0], 'agent', one));
  const what = BEGUN.find((one) => one === found?.what) ?? named;
  if (what === undefined || (plotsIn(nodes).length > 0 && what !== 'move')) return null;
  const rest = found?.what === what ? found.rest : cleaned.slice(nodes[0]?.to);
  const several = blocks.filter((one) => rest.toLowerCase().includes(one.toLowerCase())).length > 1;
  const block = (several ? null : blockIn(nodes, blocks)) ?? rest.trim();
  if (what === 'add') return only({ kind: 'agent', what, text: rest.trim(), assumed: [] });
  if (what === 'move' || what === 'remove')
    return only({ kind: 'agent', what, plots: plotsIn(nodes), assumed: [] });
  return only({ kind: 'agent', what, ...(block !== '' && { block }), assumed: [] });
}
