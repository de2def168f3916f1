/** The trouble of a clause as a reading; what ends a trouble, or loses a crop, is left out wherever the text leaves a doubt. */
import { type Day, isoDay } from '../plan/day.ts';
import type { Bound } from './bind.ts';
import type { Clause } from './clause.ts';
import type { Mark } from './forms.ts';
import { saidOf } from './possible-readings.ts';
import type { TroubleReading } from './reading.ts';
import { findDay, saysPast } from './said-day.ts';

const DOUBTING: readonly Mark[] = ['doubt', 'others', 'if', 'question'];

const isDoubted = (clause: Clause) =>
  clause.ending === '?' || DOUBTING.some((mark) => clause.marks.has(mark));

/** True when nothing in its sentence takes the clause back. */
const isSure = (bound: Bound, all: readonly Bound[]) =>
  all.every(({ clause }) => clause.sentence !== bound.clause.sentence || !isDoubted(clause));

/** "the tractor came and ploughed plot 3": who did the work, and no news of its own. */
const isDoer = ({ plots }: Bound, next: Bound | undefined) =>
  plots === null &&
  next?.clause.by === 'and' &&
  next.clause.head?.form === 'done' &&
  !next.clause.marks.has('self');

/** "water is back on Friday" may be a hope; "the tractor came but broke" ends nothing. */
function hasEnded(bound: Bound, all: readonly Bound[], today: Day): boolean {
  const come = saidOf(bound).every(
    (said) => saysPast(said, today) || (said.kind === 'offset' && said.days === 0),
  );
  const next = all[all.indexOf(bound) + 1];
  const floods = all.some(({ clause }) => clause.trouble?.what === 'flooded-out' && !clause.trouble.over);
  const crossed = bound.clause.crossed || next?.clause.by === 'but';
  return come && isSure(bound, all) && !crossed && !floods && !isDoer(bound, next);
}

/** The day until which it lasts, null when none was said or it is over. */
export function untilDay(until: Clause['until'], today: Day): string | null {
  const day = until?.said ? findDay(until.said, false, today) : null;
  return day && !('problem' in day) && day.on !== null ? isoDay(day.on) : null;
}

/** The reading, or none. "seedlings died" has `lost`; "seedlings died?" has not. */
export function troubleReading(bound: Bound, all: readonly Bound[], today: Day): TroubleReading[] {
  const { trouble, until } = bound.clause;
  if (trouble === null || (trouble.over && !hasEnded(bound, all, today))) return [];
  const { what, lost, over } = trouble;
  const plots = bound.plots?.ids ?? [];
  const base = { kind: 'trouble', what, plots, until: untilDay(until, today) } as const;
  if (over) return [{ ...base, over, assumed: [] }];
  return lost && isSure(bound, all) ? [{ ...base, lost, assumed: [] }] : [{ ...base, assumed: [] }];
}
