/** "weeding and topdressing finished": a stage behind several named works in a row is said of all of them, or perhaps of the last only. */
import type { Clause } from './clause.ts';

/** A work named, and nothing said of it. */
const isNamed = ({ head, marks, stages }: Clause) =>
  (head?.form === 'doing' || head?.form === 'naming') && stages.length === 0 && marks.size === 0;

const isFinished = ({ stages, stageBehind }: Clause) =>
  stageBehind && stages.length > 0 && stages.every((stage) => stage === 'finished');

const isDenied = ({ marks }: Clause) => marks.has('not') || marks.has('nothing');

/** With plots of its own on either side the stage may be the last one's alone, and a denial always. */
function withStage(clause: Clause, next: Clause): Clause {
  const apart = clause.plots !== null && (next.plots !== null || next.by === 'comma');
  if (apart || isDenied(next)) return { ...clause, marks: new Set([...clause.marks, 'doubt'] as const) };
  return { ...clause, stages: next.stages, stageBehind: true };
}

/** The clauses, with the stage that the last of a row of works carries. */
export function shareStages(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  for (const clause of clauses.toReversed()) {
    const next = out[0];
    const joined = next?.by === 'and' || next?.by === 'comma';
    const shares =
      next?.head != null &&
      joined &&
      isNamed(clause) &&
      (isDenied(next) || (isFinished(next) && next.head.form !== 'done'));
    out.unshift(shares ? withStage(clause, next) : clause);
  }
  return out;
}
