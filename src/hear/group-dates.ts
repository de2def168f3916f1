/** Joins the nodes of a date into one node, not yet found on the calendar. */
import { DATE_PATTERNS } from './date-patterns.ts';
import type { Grouped } from './date-words.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node } from './sense.ts';

function join(nodes: readonly Node[], grouped: Grouped, led: boolean): Node {
  const [first, last] = [nodes[0]!, nodes.at(-1)!];
  const raw = nodes.map((node) => node.raw).join(' ');
  const base = { senses: [], from: first.from, to: last.to, raw, glued: first.glued };
  // "plots 3/4" may be two plots; "plots on 3/4" are none.
  if (grouped.said && first.parts && nodes.length === 1 && !led)
    return { ...base, said: grouped.said, parts: first.parts };
  return grouped.said
    ? { ...base, said: grouped.said }
    : { ...base, senses: [{ role: 'filler', value: 'filler' }] };
}

const OPENING = new Set(['offset', 'either', 'weekday', 'monthName', 'date', 'article']);

/** Most words begin no date; seeing so at once keeps reading fast. */
const mayBegin = (node: Node) =>
  node.value !== undefined ||
  node.parts !== undefined ||
  node.senses.some((sense) => OPENING.has(sense.role));

/** The nodes with every date as one node; durations and hours become fillers. */
export function groupDates(nodes: readonly Node[], lexicon: Lexicon): Node[] {
  const out: Node[] = [];
  for (let at = 0; at < nodes.length; ) {
    let grouped: Grouped | null = null;
    for (const pattern of mayBegin(nodes[at]!) ? DATE_PATTERNS : []) {
      grouped = pattern(nodes, at, lexicon);
      if (grouped) break;
    }
    if (!grouped) out.push(nodes[at]!);
    else {
      const before = out.length;
      while (means(out.at(-1), 'date', 'on') && grouped.said) out.pop();
      out.push(join(nodes.slice(at, at + grouped.length), grouped, out.length < before));
    }
    at += grouped?.length ?? 1;
  }
  return out;
}
