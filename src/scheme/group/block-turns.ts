/** The water turns of a block as its canal, its plots and the rulebook give them. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import { stepFor } from '../../agronomy/plot-plan.ts';
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { RestDays, Season } from '../../agronomy/season.ts';
import { isWorkday } from '../../agronomy/working-days.ts';
import type { Day } from '../../plan/day.ts';
import type { CanalHours } from '../group-section.ts';
import type { TurnPlot, WaterTurns } from './water-turns.ts';
import { waterTurns } from './water-turns.ts';

/** Plots in canal order: those that wait for their flooding, and the land that stands under water. */
export interface Waiting<Plot> {
  readonly waiting: readonly Plot[];
  readonly heldHa: number;
}

/** Somebody opens the gate in the morning. */
const GATE_HOUR = 6;

/** Which irrigated plots wait for their flooding; those flooded and not yet drained are held. */
export function waitingPlots<Plot extends { readonly season: Season }>(
  plots: readonly Plot[],
  book: Rulebook,
  today: Day,
): Waiting<Plot> {
  const waiting: Plot[] = [];
  let heldHa = 0;
  for (const plot of plots) {
    if (plot.season.way.water !== 'irrigated') continue;
    const plan = planPlot(plot.season, book, today);
    const [flood, drain] = [stepFor(plan, 'flood'), stepFor(plan, 'drain')];
    if (flood && flood.status !== 'done' && flood.status !== 'started') waiting.push(plot);
    else if (drain && drain.status !== 'done') heldHa += plot.season.areaHa;
  }
  return { waiting, heldHa };
}

/** What a block's canal brings: flow at the plots in l/s, depths in mm, and when it is open. */
export interface BlockCanal extends CanalHours {
  readonly flowLps: number;
  readonly depthMm: number;
  readonly lossMmPerDay: number;
  readonly restDays?: RestDays;
}

/** The turns of plots when the canal opens on a day. It is closed on days of rest and on those of other blocks. */
export function blockTurns(
  plots: readonly TurnPlot[],
  { restDays, rotation, open, ...canal }: BlockCanal,
  heldHa: number,
  from: Day,
): WaterTurns {
  const isOwn = (day: Day) => {
    if (!rotation) return true;
    const { start, every, days } = rotation;
    return (((day - start) % every) + every) % every < days;
  };
  const isClosed = (day: Day) => !isOwn(day) || !isWorkday(restDays, day);
  return waterTurns(plots, {
    ...canal,
    heldHa,
    from,
    isClosed,
    ...(open ? { open } : { fromHour: GATE_HOUR }),
  });
}
