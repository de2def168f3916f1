/** Long answers to an agent: as many lines as three parts hold, the rest by MORE. */
import type { Group } from '../group.ts';
import type { Part, Sentence } from '../turn.ts';

/** The head, and as many lines as fit; what is left is kept for MORE. At least one line is told. */
export function inPages(
  group: Group,
  lang: string,
  head: readonly Sentence[],
  lines: readonly Sentence[],
): Part {
  const fits = (say: readonly Sentence[]) => group.fits(lang, { sentences: say });
  if (fits([...head, ...lines])) return { say: [...head, ...lines], agent: { rest: [] } };
  let shown = lines.length - 1;
  while (shown > 1 && !fits([...head, ...lines.slice(0, shown), more(lines.length - shown)])) shown -= 1;
  const say = [...head, ...lines.slice(0, shown), more(lines.length - shown)];
  return { say, agent: { rest: lines.slice(shown) } };
}

const more = (count: number): Sentence => ({ key: 'agent.more', values: { count } });
