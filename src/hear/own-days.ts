/** "ploughed 1 yesterday and 2 today": plots with a day of their own repeat the verb before them, where that is beyond doubt. */
import type { Clause, DaySaid } from './clause.ts';
import type { Mark } from './forms.ts';

/** What may stand beside a plain statement. */
const PLAIN: ReadonlySet<Mark> = new Set<Mark>(['self', 'perfect', 'ours']);

/** A plain statement that something was done. */
export const isStated = ({ head, marks, strange, ending }: Clause) =>
  (head?.form === 'done' || head?.form === 'same') &&
  !strange &&
  ending !== '?' &&
  [...marks].every((mark) => PLAIN.has(mark));

const isJoined = (clause: Clause) => clause.by === 'and' || clause.by === 'comma';

/** No verb stands near that could have the same plots and days. */
function isAlone(before: readonly Clause[], after: Clause | undefined): boolean {
  const last = before.at(-1)!;
  const others = before.filter((one) => one.head && one.sentence === last.sentence);
  const follows = after === undefined || after.by === 'stop' || (after.plots !== null && isJoined(after));
  return follows && others.every((one) => one.pairing !== null);
}

/** Whether the verb before could be meant again, with the plots and the day of the bare piece. */
export function mayRepeat(bare: Clause, before: readonly Clause[]): boolean {
  const last = before.at(-1);
  if (!last || !isStated(last) || last.sentence !== bare.sentence || !isJoined(bare)) return false;
  return last.pairing !== null && bare.pairing === last.pairing && bare.stages.length === 0;
}

/** "planted 2 yesterday, 3 tomorrow": the second is a plan. */
const isComing = ({ node: { said } }: DaySaid): boolean =>
  (said?.kind === 'offset' && said.days > 0) || (said?.kind === 'weekday' && said.turn === 'next');

/** The bare piece as a clause with the verb before it; null where it could belong otherwise. */
export function withOwnDay(
  bare: Clause,
  before: readonly Clause[],
  after: Clause | undefined,
): Clause | null {
  if (!mayRepeat(bare, before) || !isAlone(before, after)) return null;
  const { by, plots, days, measures, brokenDay, said } = bare;
  const last = before.at(-1)!;
  const head =
    last.head && plots?.named && days.some(isComing)
      ? ({ ...last.head, form: 'future' } as const)
      : last.head;
  return { ...last, head, by, plots, days, measures, brokenDay, said, trouble: null, until: null };
}
