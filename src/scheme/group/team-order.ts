/** The order in which one shared team, a tractor or a pair of animals, serves plots: whose soil is soft when, and by when it must be done. */
import type { Day } from '../../plan/day.ts';
import { leastLateness } from './least-lateness.ts';

export interface TeamPlot {
  readonly plotId: string;
  /** The first day on which its work can be done, and the last on which it should be finished. */
  readonly releaseOn: Day;
  readonly lastOn: Day;
  /** Hours of work. */
  readonly hours: number;
}

export interface Team {
  /** The first day on which it works. */
  readonly from: Day;
  readonly hoursADay: number;
  /** Hours from one plot to the next. */
  readonly movingHours: number;
  readonly isRest?: (day: Day) => boolean;
}

export interface TeamVisit {
  readonly plotId: string;
  readonly on: Day;
  readonly doneOn: Day;
  /** Days after its last day; 0 when it is done in time. */
  readonly lateDays: number;
}

export interface TeamOrder {
  readonly visits: readonly TeamVisit[];
  /** The most that any plot is late, in days. */
  readonly lateDays: number;
  /** Whether no order is less late: known for all but odd cases of very many plots. */
  readonly isBest: boolean;
}

/** A team that rests so long without a day of work does not work. */
const LONGEST_REST = 366;
const NOTHING = 1e-9;

/**
 * Visits in their order, with the latest as little late as can be, counted in working hours. Throws a RangeError for a team
 * without hours or days of work, or for hours under 0.
 */
export function teamOrder(plots: readonly TeamPlot[], team: Team): TeamOrder {
  check(plots, team);
  const work = workingDays(team);
  const { hoursADay, movingHours } = team;
  const pieces = plots.map(({ releaseOn, lastOn, hours }) => ({
    release: work.before(releaseOn) * hoursADay - movingHours,
    due: work.before(lastOn + 1) * hoursADay,
    takes: hours + movingHours,
  }));
  const { order, starts, lateness, bound } = leastLateness(pieces);
  const visits = order.map((place, i): TeamVisit => {
    const { plotId, lastOn, hours } = plots[place] as TeamPlot;
    const start = (starts[i] ?? 0) + movingHours;
    const on = work.day(Math.floor(start / hoursADay + NOTHING));
    const doneOn = Math.max(on, work.day(Math.ceil((start + hours) / hoursADay - NOTHING) - 1));
    return { plotId, on, doneOn, lateDays: Math.max(0, doneOn - lastOn) };
  });
  return {
    visits,
    lateDays: Math.max(0, ...visits.map(({ lateDays }) => lateDays)),
    isBest: lateness <= bound + NOTHING,
  };
}

/** The team's days of work, counted from its first: how many lie before a day, and which is the n-th (0 is the first). */
function workingDays({ from, isRest }: Team) {
  const days: Day[] = [];
  let next = from;
  const grow = () => {
    while (isRest?.(next) === true) next += 1;
    days.push(next);
    next += 1;
  };
  return {
    before: (day: Day): number => {
      while (next < day) grow();
      return days.filter((one) => one < day).length;
    },
    day: (n: number): Day => {
      while (days.length <= n) grow();
      return days[Math.max(0, n)] ?? from;
    },
  };
}

function check(plots: readonly TeamPlot[], { from, hoursADay, movingHours, isRest }: Team): void {
  const works =
    !isRest || Array.from({ length: LONGEST_REST }, (_, i) => from + i).some((day) => !isRest(day));
  const hours = plots.every((plot) => plot.hours >= 0);
  if (hoursADay > 0 && movingHours >= 0 && hours && works) return;
  throw new RangeError(`No order: ${hoursADay} hours a day, ${movingHours} to move, ${plots.length} plots.`);
}
