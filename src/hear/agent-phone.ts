/** What an agent's phone is heard for beside a grower's: codes, changes of people, lists; blocks by their names alone. */
import type { Day } from '../plan/day.ts';
import { readAgentCommand } from './agent-command.ts';
import { type AgentOnly, agentWord } from './agent-words.ts';
import { blockIn } from './block-name.ts';
import { groupDates } from './group-dates.ts';
import { groupPlots } from './group-plots.ts';
import type { Lexicon } from './lexicon.ts';
import type { AgentReading, Heard } from './reading.ts';
import type { Node } from './sense.ts';
import { trim } from './trim.ts';

/** A code alone, as it is texted. */
const CODE_ALONE = /^[^\p{L}\p{Nd}]*(\d{5})[^\p{L}\p{Nd}]*$/u;
const CODE = /(?<!\d)(\d{3,8})(?!\d)/;
/** A phone number in a text. */
const PHONE = /\+?\(?\d[\d\s().-]{6,}\d/;
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
  const found = agentWord(cleaned, lexicon);
  const own = found && readOwn(found.what, found.rest, nodesIn(found.rest), blocks);
  if (own) return only(own);
  return readAgentCommand(groupDates(trim(nodesIn(cleaned)), lexicon), cleaned, today, blocks);
}

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
      return block !== null || nodes.length <= MOST_BESIDE ? base : null;
  }
}

const plotsIn = (nodes: readonly Node[]): readonly string[] =>
  groupPlots(nodes).flatMap(({ plots, label }) => plots?.ids ?? (label === undefined ? [] : [label]));
