/** Reads one text: words to nodes, nodes to clauses, clauses to readings; whatever could mean two things is asked back. */
import type { Day } from '../plan/day.ts';
import { readAgentCommand } from './agent-command.ts';
import { begunCommand, hearAgentPhone } from './agent-phone.ts';
import { assemble } from './assemble.ts';
import { attachBare, bind } from './bind.ts';
import { cutChunks } from './chunk.ts';
import { readClause } from './clause.ts';
import { groupDecimals, joinDecimals } from './decimals.ts';
import { figuresFirst } from './figures-first.ts';
import { clean } from './fold.ts';
import { groupDates } from './group-dates.ts';
import { groupMeasures } from './group-measures.ts';
import { groupPlots } from './group-plots.ts';
import { groupShares } from './group-shares.ts';
import { guessedText, worthAsking } from './guess.ts';
import { joinHelpers } from './last-verbs.ts';
import { type Lexicon, spellingOf } from './lexicon.ts';
import { settleLinks } from './linked-verbs.ts';
import { bothWays, otherwiseKeyed } from './miskeyed.ts';
import { toNodes } from './nodes.ts';
import { isBesideLone } from './opt-out.ts';
import { withEndingsSpelt } from './opt-out-spelt.ts';
import { plotWordsFirst } from './plot-words.ts';
import { readRain } from './rain.ts';
import type { Heard, Reading, Unclear } from './reading.ts';
import type { Node } from './sense.ts';
import { shareMarks, shareRemarks } from './share-marks.ts';
import { groupSpotRow } from './spot-row.ts';
import { readSum } from './sum.ts';
import { tokenise } from './tokens.ts';
import { trim } from './trim.ts';
import { readAnswer, readCommand, readLoneAsk } from './whole-text.ts';
import { withoutNames } from './without-names.ts';

/** What one text may report: more is a list for paper. */
const MOST_CLAUSES = 80;
/** The longest text that carriers bring in; what is longer was not written on a phone. */
const LONGEST_TEXT = 1600;

/** Commands by which people go. */
const GOING: ReadonlySet<string> = new Set(['stop', 'forget']);

/** Also flags, which are pairs of letters of their own. */
const PICTURE_SIGN = /[\p{Extended_Pictographic}\p{Regional_Indicator}]/u;

const only = (reading: Reading): Heard => ({ readings: [reading], unclear: null });
const unclear = (why: Unclear['why']): Heard => ({ readings: [], unclear: { why, choices: [] } });

/** The nodes of a text before anything is joined. */
export function nodesOf(text: string, lexicon: Lexicon): { cleaned: string; nodes: readonly Node[] } {
  const cleaned = clean(text);
  const nodes = figuresFirst(
    plotWordsFirst(toNodes(tokenise(cleaned, spellingOf(lexicon)), lexicon), lexicon),
    lexicon,
  );
  return { cleaned, nodes: joinDecimals(nodes, lexicon) };
}

/** "cancel report": what was taken off as a greeting behind a command may be what it is about. */
function commandOf(all: readonly Node[], text: string, lexicon: Lexicon): Reading | null {
  const message = trim(all);
  const reading = readCommand(message, text, lexicon);
  if (reading?.kind !== 'account' || !GOING.has(reading.what)) return reading;
  const from = message[0]?.from ?? 0;
  const kept = new Set(message.map((node) => node.from));
  const off = all.filter((node) => node.from > from && !kept.has(node.from));
  return off.every((node) => mayBeTakenOff(node, lexicon)) ? reading : null;
}

const mayBeTakenOff = (node: Node, lexicon: Lexicon): boolean =>
  node.mark !== undefined ||
  node.strange === true ||
  ['signature', 'intro'].some((role) => node.senses.some((sense) => sense.role === role)) ||
  isBesideLone(node, lexicon);

function wholeText(
  all: readonly Node[],
  message: readonly Node[],
  text: string,
  lexicon: Lexicon,
): Heard | null {
  const reading = commandOf(all, text, lexicon) ?? readAnswer(message) ?? readLoneAsk(message);
  return reading ? only(reading) : null;
}

/** STOP spelled letter by letter, or a long word for it with a slip, where the text is nothing else. */
function speltStop(cleaned: string, lexicon: Lexicon): Heard | null {
  const spelt = withEndingsSpelt(cleaned, lexicon);
  if (spelt === null) return null;
  const reading = commandOf(nodesOf(spelt, lexicon).nodes, spelt, lexicon);
  return reading?.kind === 'account' && reading.what === 'stop' ? only(reading) : null;
}

function sentences(nodes: readonly Node[], lexicon: Lexicon, today: Day): Heard {
  const dated = groupDates(groupShares(nodes, lexicon, today), lexicon);
  const measured = groupMeasures(groupSpotRow(dated, lexicon), lexicon);
  const grouped = groupPlots(measured);
  const sum = readSum(nodes, grouped, lexicon);
  if (sum) return only(sum);
  const nodesInTurn = joinHelpers(groupDecimals(grouped, lexicon), lexicon);
  const chunks = cutChunks(nodesInTurn, lexicon);
  if (chunks.length > MOST_CLAUSES) return unclear('too-long');
  const clauses = attachBare(chunks.map((chunk) => readClause(chunk, lexicon)));
  const marked = lexicon.verbsLast ? settleLinks(shareRemarks(clauses)) : shareMarks(clauses);
  return assemble(bind(marked, today), today);
}

/** Where nothing, or no work, was understood, the nearest known work is asked about. */
function orGuess(heard: Heard, cleaned: string, nodes: readonly Node[], lexicon: Lexicon, today: Day): Heard {
  const why = heard.unclear?.why;
  if (why !== 'nothing-known' && why !== 'which-activity') return heard;
  const guess = guessedText(cleaned, nodes, lexicon);
  if (guess === null) return heard;
  const { readings } = readMessage(guess, nodesOf(guess, lexicon).nodes, lexicon, today);
  return worthAsking(readings)
    ? { readings: [], unclear: { why: 'two-meanings', choices: readings } }
    : heard;
}

/** Where a word may have been typed for one that turns the meaning, both are read. */
function orMiskeyed(
  heard: Heard,
  cleaned: string,
  nodes: readonly Node[],
  lexicon: Lexicon,
  today: Day,
): Heard {
  const other = otherwiseKeyed(cleaned, nodes, lexicon);
  return other === null
    ? heard
    : bothWays(heard, readMessage(other, nodesOf(other, lexicon).nodes, lexicon, today));
}

function readMessage(cleaned: string, nodes: readonly Node[], lexicon: Lexicon, today: Day): Heard {
  const message = trim(nodes);
  const stop = speltStop(cleaned, lexicon);
  if (stop) return stop;
  if (message.length === 0) return unclear('greeting');
  const whole = wholeText(nodes, message, cleaned, lexicon);
  if (whole) return whole;
  const command = readAgentCommand(groupDates(message, lexicon), cleaned, today);
  if (command) return command;
  const read = (part: readonly Node[]) => sentences(part, lexicon, today);
  return readRain(message, lexicon, today, read) ?? read(message);
}

/** A picture sign alone ("🙏") is a greeting: its sender has said something. */
function whyWordless(body: string): Unclear['why'] {
  if (body.includes('?')) return 'nothing-known';
  return PICTURE_SIGN.test(body) ? 'greeting' : 'empty';
}

/**
 * Reads a text as its grower meant it, or says why it cannot. Never throws. `blocks` are the names that an agent may text.
 * `hear('ploughed plot 3 yesterday, 12 cm', english, today)` is one report with the day before today and 12 cm.
 */
export function hear(text: string, lexicon: Lexicon, today: Day, blocks: readonly string[] = []): Heard {
  const body = text.trim();
  if (body.length > LONGEST_TEXT) return unclear('too-long');
  const { cleaned, nodes } = nodesOf(body, lexicon);
  if (nodes.every((node) => node.mark !== undefined)) return unclear(whyWordless(body));
  const nodesIn = (piece: string) => nodesOf(piece, lexicon).nodes;
  const command = blocks.length > 0 ? hearAgentPhone(cleaned, nodesIn, lexicon, today, blocks) : null;
  if (command) return command;
  const heard = orMiskeyed(readMessage(cleaned, nodes, lexicon, today), cleaned, nodes, lexicon, today);
  const ofAgent =
    heard.unclear && blocks.length > 0
      ? (troubleIn(withoutNames(cleaned, blocks), lexicon, today) ??
        begunCommand(cleaned, nodesIn, lexicon, blocks))
      : null;
  return ofAgent ?? orGuess(heard, cleaned, nodes, lexicon, today);
}

/** "the tractor of Upper is broken": a trouble in which a block's name stands; null when there is none. */
function troubleIn(text: string | null, lexicon: Lexicon, today: Day): Heard | null {
  if (text === null) return null;
  const heard = readMessage(text, nodesOf(text, lexicon).nodes, lexicon, today);
  return heard.readings.length === 1 && heard.readings[0]?.kind === 'trouble' ? heard : null;
}
