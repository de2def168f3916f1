/** When water, or the shared team, comes to a plot: an hour of a day to an hour of a day. */
import type { Day } from '../../plan/day.ts';

/** A moment: a day, and the hour of it (0 to 24, with its minutes as a part). */
export interface Moment {
  readonly day: Day;
  readonly hour: number;
}

export interface Visit {
  readonly start: Moment;
  readonly end: Moment;
}

/** `water`: its turn at the canal; `team`: the shared tractor or animals. A plot has one of each at a time. */
export type AppointmentKind = 'water' | 'team';

/** What a plot is given; a null visit takes its appointment away. */
export interface Appointment {
  readonly plotId: string;
  readonly visit: Visit | null;
}

export function sameVisit(a: Visit | null, b: Visit | null): boolean {
  if (a === null || b === null) return a === b;
  return sameMoment(a.start, b.start) && sameMoment(a.end, b.end);
}

const MINUTES = 60;
const sameMoment = (a: Moment, b: Moment) =>
  a.day === b.day && Math.round(a.hour * MINUTES) === Math.round(b.hour * MINUTES);
