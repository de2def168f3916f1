/** The water turns of a block for an agent: whose turn is when, who is not ready for it, and what changes for whom. */

import { isRefusal } from '../../agronomy/sums/sum.ts';
import type { Day } from '../../plan/day.ts';
import { type Appointment, sameVisit, type Visit } from '../../scheme/group/appointment.ts';
import { type BlockCanal, blockTurns, waitingPlots } from '../../scheme/group/block-turns.ts';
import { type LeftOut, leftOutOn } from '../../scheme/group/flood-date.ts';
import { floodDays } from '../../scheme/group/flood-days.ts';
import type { Block, Group, GroupPlot } from '../group.ts';
import { waterOf } from '../sum-water.ts';
import type { World } from '../world.ts';
import { plotsOf } from './meant.ts';

/** Without a canal of which the flow is known, water is on all plots from morning to evening of one day. */
const ALL_DAY = { from: 6, to: 18 };

export interface WaterPlan {
  readonly on: Day;
  /** Plots that wait for their flooding, in canal order. */
  readonly waiting: readonly GroupPlot[];
  readonly visits: ReadonlyMap<string, Visit>;
  /** Plots that the canal cannot soak and hold, and by how many l/s it is short. */
  readonly without: readonly GroupPlot[];
  readonly shortLps: number;
  /** The day on which the canal closes, where turns would come after it. */
  readonly closes: Day | null;
}

/** The block's canal with the losses of the month; null where its flow is not known. */
export function canalOf(
  world: World,
  block: Block,
  waiting: readonly GroupPlot[],
  on: Day,
): BlockCanal | null {
  const [first] = waiting;
  if (!block.canal || !first) return null;
  const areaHa = waiting.reduce((sum, { season }) => sum + season.areaHa, 0);
  const water = waterOf({ ...world, today: on }, first, areaHa);
  if (isRefusal(water) || !water.canal) return null;
  const { litresPerSecond, open, rotation } = block.canal;
  return {
    flowLps: litresPerSecond * water.canal.efficiency,
    depthMm: water.soakDepthMm,
    lossMmPerDay: water.lossMmPerDay,
    ...(open && { open }),
    ...(rotation && { rotation }),
    ...(first.season.restDays && { restDays: first.season.restDays }),
  };
}

/** The turns when water comes to the block from this day on. */
export function waterPlan(world: World, group: Group, block: Block, on: Day): WaterPlan {
  const { waiting, heldHa } = waitingPlots(plotsOf(group, [block]), world.rulebook, world.today);
  const canal = canalOf(world, block, waiting, on);
  if (!canal) {
    const visit = { start: { day: on, hour: ALL_DAY.from }, end: { day: on, hour: ALL_DAY.to } };
    return {
      on,
      waiting,
      visits: new Map(waiting.map(({ id }) => [id, visit])),
      without: [],
      shortLps: 0,
      closes: null,
    };
  }
  const found = blockTurns(turnPlots(waiting), canal, heldHa, on);
  const closes = block.water.to;
  const turns = found.turns.filter(({ end }) => closes === null || end.day <= closes);
  const visits = new Map(turns.map(({ plotId, start, end }) => [plotId, { start, end }]));
  return {
    on,
    waiting,
    visits,
    without: waiting.filter(({ id }) => !visits.has(id)),
    shortLps: found.shortLps,
    closes: turns.length < found.turns.length ? closes : null,
  };
}

export const turnPlots = (plots: readonly GroupPlot[]) =>
  plots.map(({ id, season }) => ({ plotId: id, areaHa: season.areaHa }));

/** What is new for growers: plots whose turn is another than the one they were told, and those that lose theirs. */
export function changedTurns({ waiting, visits }: WaterPlan): readonly Appointment[] {
  return waiting.flatMap(({ id, water }): Appointment[] => {
    const visit = visits.get(id) ?? null;
    return sameVisit(visit, water) ? [] : [{ plotId: id, visit }];
  });
}

/** Plots whose turn comes before they can be ready, or too late for their dates. */
export interface NotReady {
  readonly plot: GroupPlot;
  readonly why: LeftOut['why'];
  readonly byDays: number;
}

export function notReady(world: World, { waiting, visits }: WaterPlan): readonly NotReady[] {
  return waiting.flatMap((plot) => {
    const visit = visits.get(plot.id);
    if (!visit) return [];
    const days = floodDays(plot.id, plot.season, world.rulebook, world.today);
    const ready = days.days?.from ?? visit.start.day;
    const on = Math.min(Math.max(ready, visit.start.day), visit.end.day);
    return leftOutOn(days, on).map(({ why, byDays }) => ({ plot, why, byDays }));
  });
}
