/** Takes off what surrounds the message: greetings, who is texting, signatures, a leading yes or no. */
import { isHead } from './chunk.ts';
import { means, type Node, senseOf } from './sense.ts';

const LONGEST_TAIL = 5;
const LONGEST_NAME = 2;

const isName = (node: Node | undefined) => node?.strange === true;

/** Nothing in a signature may be a report. */
const isIdle = (nodes: readonly Node[]) =>
  nodes.every(
    (node) => !isHead(node) && node.value === undefined && node.parts === undefined && !senseOf(node, 'plot'),
  );

function signatureAt(nodes: readonly Node[]): number {
  for (let i = Math.max(1, nodes.length - LONGEST_TAIL); i < nodes.length; i++) {
    const opener = senseOf(nodes[i], 'signature') !== undefined;
    const dashed = nodes[i]?.mark === '-' && isName(nodes[i + 1]);
    const apart = nodes[i - 1]?.mark !== undefined || !means(nodes[i], 'mark', 'along');
    if (((opener && apart) || dashed) && isIdle(nodes.slice(i))) return i;
  }
  return nodes.length;
}

/** "im thru weeding plot 2": no name, but a word not known that may turn the work round. */
const isDoing = (node: Node | undefined) => node?.senses.some((sense) => sense.form === 'doing') ?? false;

/** A greeting and the name that follows it; "Sam here"; "this is Sam". */
function opening(nodes: readonly Node[], at: number): number {
  let i = at;
  if (senseOf(nodes[i], 'greeting')) {
    i++;
    for (let names = 0; names < LONGEST_NAME && isName(nodes[i]); names++) i++;
    return i;
  }
  if (means(nodes[i], 'intro', 'before') && isName(nodes[i + 1])) {
    const end = isName(nodes[i + 2]) ? i + 3 : i + 2;
    return isDoing(nodes[end]) ? at : end;
  }
  if (isName(nodes[i]) && means(nodes[i + 1], 'intro', 'after')) return i + 2;
  return at;
}

function withoutOpenings(nodes: readonly Node[]): Node[] {
  const out: Node[] = [];
  for (let i = 0; i < nodes.length; ) {
    const next = i === 0 || senseOf(nodes[i], 'greeting') || out.length === 0 ? opening(nodes, i) : i;
    if (next > i) i = next;
    else out.push(nodes[i++]!);
  }
  return out;
}

const DOUBTED_NO = [
  { role: 'mark', value: 'not' },
  { role: 'mark', value: 'doubt' },
] as const;

/** "No, ploughed 3" answers and then reports; "no ploughed 3" could deny. */
function leadingAnswer(nodes: readonly Node[]): readonly Node[] {
  const [first, second] = nodes;
  if (!first || nodes.length < 3 || !senseOf(first, 'answer')) return nodes;
  if (nodes.slice(1).every(({ mark }) => mark !== undefined)) return nodes;
  if (second?.mark !== undefined) return nodes.slice(2);
  if (!means(first, 'answer', 'no') || !means(first, 'mark', 'not')) return nodes;
  return [
    { ...first, senses: [...first.senses.filter((s) => s.role !== 'mark'), ...DOUBTED_NO] },
    ...nodes.slice(1),
  ];
}

/** "Je, nimelima?": a word that only asks belongs to what follows its comma. */
const withoutAskersComma = (nodes: readonly Node[]): readonly Node[] =>
  means(nodes[0], 'mark', 'asker') && nodes[1]?.mark === ',' ? [nodes[0]!, ...nodes.slice(2)] : nodes;

/** The nodes of the message itself. "Hi Musa, ploughed 3 - from Sam" keeps "ploughed 3". */
export function trim(nodes: readonly Node[]): readonly Node[] {
  const body = withoutOpenings(nodes.slice(0, signatureAt(nodes)));
  while (body[0]?.mark !== undefined && body[0].mark !== '?' && body[0].mark !== '#' && body[0].mark !== '+')
    body.shift();
  return leadingAnswer(withoutAskersComma(body));
}
