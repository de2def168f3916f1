/** How far the work has come by the words of a clause: begun, half done, finished, or both. */
import type { Stage } from '../agronomy/season.ts';
import type { Bound } from './bind.ts';

/** The stage said; 'both' when the words say one and the other; null when they say none. */
export function stageSaid({ clause }: Bound): Stage | 'both' | null {
  const stages = new Set(clause.stages);
  const partly = stages.has('partly') || stages.has('nearly');
  const begun = stages.has('started') || stages.has('starting') || partly;
  if (stages.has('stopped') || (begun && stages.has('finished'))) {
    return partly && !stages.has('stopped') ? 'started' : 'both';
  }
  if (begun) return 'started';
  const rest = stages.has('rest') && clause.head?.form === 'done';
  return rest || stages.has('finished') ? 'finished' : null;
}

/** "urea 2 acres": how far it was brought, or how much of it is wanted. */
const isAreaNamed = ({ clause, plots }: Bound): boolean =>
  clause.head?.form === 'naming' && clause.measures.amount !== undefined && plots === null;

/** "plough half of plot 3": an order or a report, where nothing else shows that it was done. */
export const isPartOrdered = (bound: Bound): boolean =>
  (bound.clause.head?.form === 'plain' || isAreaNamed(bound)) && isBare(bound);

const isBare = ({ clause }: Bound): boolean =>
  clause.stages.every((stage) => stage === 'partly' || stage === 'rest') &&
  clause.days.length === 0 &&
  !clause.marks.has('self') &&
  !clause.marks.has('perfect');

/** "ploughed half of plot 2 and plot 3": half of both, or half of one and all of the other. */
export const isPartOfSeveral = ({ clause, plots }: Bound): boolean =>
  clause.measures.share !== undefined && plots !== null && plots.ids.length > 1 && !plots.many;
