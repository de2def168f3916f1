/** Texts that are one answer or one command as a whole: yes, 2, STOP, JOIN, UNDO. A word inside a sentence never is. */

import { isDayArticle } from './beside.ts';
import type { Lexicon } from './lexicon.ts';
import { asksForNoTexts, asksHowToStop, isAsListed, isBesideLone, withoutName } from './opt-out.ts';
import type { AccountReading, Reading } from './reading.ts';
import { means, type Node, type Role, senseOf } from './sense.ts';

const NOISE = new Set<Role>(['filler', 'article', 'greeting', 'join']);

const isNoise = (node: Node): boolean =>
  node.mark !== undefined ||
  (node.senses.length > 0 &&
    node.senses.every(
      (sense) =>
        NOISE.has(sense.role) || sense.value === 'please' || (sense.role === 'date' && isDayArticle(node)),
    ));

const content = (nodes: readonly Node[]): Node[] =>
  nodes.filter((node) => !isNoise(node) || senseOf(node, 'answer'));

const all = (nodes: readonly Node[], role: Role, value?: string): boolean =>
  nodes.length > 0 &&
  nodes.every((node) => (value ? means(node, role, value) : senseOf(node, role) !== undefined));

const whole = (value: number | undefined): value is number =>
  value !== undefined && Number.isInteger(value) && value > 0;

/** "2", "2.", "no 2", "option two", "the second one". */
function pick(nodes: readonly Node[]): Reading | null {
  const ok = nodes.every(
    (node) =>
      node.value !== undefined ||
      senseOf(node, 'answer') ||
      senseOf(node, 'ending') ||
      means(node, 'plot', 'number'),
  );
  if (!ok) return null;
  const ordinals = nodes.filter((node) => senseOf(node, 'ordinal'));
  const numbers = ordinals.length > 0 ? ordinals : nodes.filter((node) => node.value !== undefined);
  const [only, second] = numbers;
  if (!whole(only?.value) || second) return null;
  return { kind: 'answer', answer: { pick: only.value }, assumed: [] };
}

/** An answer to a question of the line, when the text is nothing else. */
export function readAnswer(nodes: readonly Node[]): Reading | null {
  const said = content(nodes);
  if (nodes.some((node) => node.mark === '?' || node.parts)) return null;
  if (all(said, 'answer', 'yes')) return { kind: 'answer', answer: 'yes', assumed: [] };
  if (all(said, 'answer', 'no')) return { kind: 'answer', answer: 'no', assumed: [] };
  return said.length > 0 ? pick(said) : null;
}

const account = (what: AccountReading['what'], text: string): AccountReading =>
  text === '' ? { kind: 'account', what, assumed: [] } : { kind: 'account', what, text, assumed: [] };

const MOST_WORDS: Readonly<Record<string, number>> = { join: 3, language: 2, name: 4, phone: 5 };
/** A code of five digits, or a number of a phone written together or apart. */
const CODE_OR_NUMBER = /^\+?\d[\d ]*$/;

/** JOIN code, LANGUAGE x, MY NAME IS x, PHONE code: the words after it, as texted. */
function opened(nodes: readonly Node[], text: string): Reading | null {
  const [first, ...rest] = nodes;
  const what = senseOf(first, 'account')?.value;
  if (!first || (what !== 'join' && what !== 'language' && what !== 'name' && what !== 'phone')) return null;
  const words = rest.filter((node) => node.mark === undefined);
  if (words.length > MOST_WORDS[what]! || words.some((node) => senseOf(node, 'act') || senseOf(node, 'verb')))
    return null;
  const tail = text.slice(first.to).replace(/^[\s:=,]+|[\s.!,]+$/g, '');
  if (what === 'phone') return tail === '' || CODE_OR_NUMBER.test(tail) ? account(what, tail) : null;
  const isNamed = what !== 'join' && (tail !== '' || what === 'name');
  return isNamed && !/^[\p{L}\p{M}' .-]+$/u.test(tail) ? null : account(what, tail);
}

const FULL_REQUEST = 3;
/** What may follow a full request: "stop texting me you idiots", "… please i beg". */
const BEGGING = new Set(['please', 'self', 'others']);

const begs = (node: Node | undefined) =>
  node === undefined ||
  (node.senses.length > 0 && node.senses.every((s) => s.role === 'mark' && BEGGING.has(s.value)));

/** A whole request of several words to be left alone, with nothing behind it but anger or begging. */
function asksToStop(nodes: readonly Node[]): boolean {
  const [first, ...rest] = nodes.filter((node, i) => i > 0 || !means(node, 'mark', 'please'));
  if (!means(first, 'account', 'stop') || first!.raw.split(' ').length < FULL_REQUEST) return false;
  const words = rest.filter((node) => node.mark === undefined);
  const idle = words.every((node) => begs(node) || node.strange || isNoise(node));
  return begs(words[0]) && idle && words.every((node) => node.value === undefined) && !rest.some(isAsking);
}

const isAsking = (node: Node) => node.mark === '?';

/** Commands about the texter's own account, and UNDO; each must be the whole text. */
export function readCommand(nodes: readonly Node[], text: string, lexicon: Lexicon): Reading | null {
  const unsigned = withoutName(nodes, lexicon);
  const stops = unsigned.filter((node) => node.mark === undefined && !isBesideLone(node, lexicon));
  for (const what of ['stop', 'start', 'forget'] as const) {
    const isSpelt = what === 'start' || stops.every((node) => isAsListed(node, lexicon));
    if (isSpelt && all(stops, 'account', what)) return account(what, '');
  }
  if (asksToStop(nodes) || asksForNoTexts(unsigned, lexicon)) return account('stop', '');
  const how = asksHowToStop(unsigned, lexicon);
  if (how) return how;
  const said = content(nodes);
  if (all(said, 'undo')) return { kind: 'undo', assumed: [] };
  const [only] = said;
  if (said.length === 1 && senseOf(only, 'language') && !senseOf(only, 'account'))
    return account('language', only!.raw);
  return opened(said, text);
}

const ABOUTS = ['next', 'dates', 'why', 'help', 'plots'] as const;

/** Words that ask when they stand alone ("NEXT", "MENU", "plots?"). */
export function readLoneAsk(nodes: readonly Node[]): Reading | null {
  const said = content(nodes);
  const about = ABOUTS.find((one) => all(said, 'askAlone', one));
  return about === undefined ? null : { kind: 'ask', about, plots: [], assumed: [] };
}
