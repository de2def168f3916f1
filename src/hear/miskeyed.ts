/** Words that a tap too few, or a phone's own guess, writes in place of one that turns the meaning ("par" for "pas"). */
import type { Lexicon } from './lexicon.ts';
import { notDone } from './possible-readings.ts';
import type { Heard, Reading } from './reading.ts';
import type { Node, Role } from './sense.ts';

/** What the turned word would have turned. */
const TURNED: ReadonlySet<Role> = new Set<Role>(['act', 'verb', 'stage']);
/** How far ahead it stands: "pas DE LABOUR". */
const AHEAD = 2;

const turnsSomething = (nodes: readonly Node[], at: number): boolean =>
  nodes.slice(at + 1, at + 1 + AHEAD).some(({ senses }) => senses.some(({ role }) => TURNED.has(role)));

/** The text with the word that was perhaps meant, where one stands before work; null where none does. */
export function otherwiseKeyed(text: string, nodes: readonly Node[], lexicon: Lexicon): string | null {
  let other = '';
  let end = 0;
  for (const [at, { raw, from, to }] of nodes.entries()) {
    const meant = lexicon.miskeyed.get(raw.toLowerCase());
    if (meant === undefined || !turnsSomething(nodes, at)) continue;
    other += text.slice(end, from) + meant;
    end = to;
  }
  return end === 0 ? null : other + text.slice(end);
}

const reports = ({ readings }: Heard): Reading[] =>
  readings.flatMap((reading) => (reading.kind === 'report' ? [{ ...reading, assumed: [] }] : []));

/** What was typed, unless the other word would record something else: then it is asked whether the work was done. */
export function bothWays(typed: Heard, other: Heard): Heard {
  const [done] = typed.readings.filter((reading) => reading.kind === 'report');
  if (!done || other.readings.length === 0) return typed;
  if (JSON.stringify(reports(typed)) === JSON.stringify(reports(other))) return typed;
  return {
    readings: [],
    unclear: { why: 'two-meanings', choices: [done, notDone(done.activity, done.plots)] },
  };
}
