/** TILLER and a block: the order in which the shared team serves its plots; and a breakdown, which moves only those it must. */
import { isWorkday } from '../../agronomy/working-days.ts';
import type { AgentReading, TroubleReading } from '../../hear/reading.ts';
import { type Day, parseDay } from '../../plan/day.ts';
import { type Appointment, sameVisit } from '../../scheme/group/appointment.ts';
import { teamOrder } from '../../scheme/group/team-order.ts';
import { teamPlots } from '../../scheme/group/team-plots.ts';
import type { SharedTeam } from '../../scheme/group-section.ts';
import type { Broadcast } from '../broadcast.ts';
import type { Group, GroupPlot } from '../group.ts';
import { activityName } from '../phrases.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { propose } from './code.ts';
import type { AgentMemory } from './deed.ts';
import { agentOf } from './flood-deed.ts';
import { blocksMeant, plotsOf, whichBlock, wrongDay } from './meant.ts';
import { previewOf } from './preview.ts';

/** Hours of a day's visit, as kept. */
const DAY_HOURS = { from: 6, to: 18 };
/** Plots that come too late, named in a preview. */
const NAMED = 3;

export interface TeamPlan {
  readonly team: SharedTeam;
  readonly plots: readonly GroupPlot[];
  readonly order: ReturnType<typeof teamOrder>;
}

/** The order from a day on; of plots in blocks that are the agent's. */
export function teamPlan(world: World, group: Group, team: SharedTeam, from: Day): TeamPlan {
  const blocks = group.blocks.filter(({ id }) => team.blocks.includes(id));
  const plots = plotsOf(group, blocks);
  const rest = plots[0]?.season.restDays;
  const order = teamOrder(teamPlots(plots, team, world.rulebook, world.today), {
    from,
    hoursADay: team.hoursADay,
    movingHours: team.movingHours,
    ...(rest && { isRest: (day: Day) => !isWorkday(rest, day) }),
  });
  return { team, plots, order };
}

/** What is new for growers whose plots are still to be served. */
export function teamBroadcast(world: World, group: Group, { team, plots, order }: TeamPlan) {
  const agent = agentOf(world);
  if (!agent) return null;
  const told = new Map(plots.map((plot) => [plot.id, plot.team]));
  const appointments = order.visits.flatMap(({ plotId, on, doneOn }): Appointment[] => {
    const visit = { start: { day: on, hour: DAY_HOURS.from }, end: { day: doneOn, hour: DAY_HOURS.to } };
    return sameVisit(visit, told.get(plotId) ?? null) ? [] : [{ plotId, visit }];
  });
  const blocks = group.blocks.filter(({ id }) => team.blocks.includes(id));
  const broadcast: Broadcast & { kind: 'team' } = {
    kind: 'team',
    agentId: agent.id,
    agentName: agent.name,
    blockIds: blocks.map(({ id }) => id),
    blockNames: blocks.map(({ name }) => name),
    teamId: team.id,
    teamName: team.name,
    activity: team.work,
    appointments,
  };
  return broadcast;
}

export function answerTeam(
  world: World,
  group: Group,
  reading: AgentReading,
  words: string,
  memory: AgentMemory,
): Part {
  const blocks = blocksMeant(group, reading.block);
  if (!blocks) return whichBlock(group);
  const ids = blocks.map(({ id }) => id);
  const teams = (world.scheme.sharedTeams ?? []).filter((team) => team.blocks.some((id) => ids.includes(id)));
  const on = reading.on == null ? world.today + 1 : parseDay(reading.on);
  const wrong = on === null ? null : wrongDay(world, on);
  if (wrong) return wrong;
  return ofOneTeam(named(group, teams, words), (team) =>
    preview(world, group, team, on ?? world.today + 1, memory),
  );
}

/** "Tractor broken until 12 May": the team that is named, itself or by its block, else the only one, starts again on that day. */
export function answerBreakdown(
  world: World,
  group: Group,
  { until }: TroubleReading,
  words: string,
  memory: AgentMemory,
): Part {
  const ids = group.blocks.map(({ id }) => id);
  const teams = (world.scheme.sharedTeams ?? []).filter((team) => team.blocks.some((id) => ids.includes(id)));
  const day = until === null ? null : parseDay(until);
  return ofOneTeam(named(group, teams, words), (team) =>
    day === null
      ? saying('team.until-when', { team: team.name })
      : preview(world, group, team, Math.max(day, world.today), memory),
  );
}

/** Teams that a text names, themselves or by a block; all where it names none. */
function named(group: Group, teams: readonly SharedTeam[], words: string): readonly SharedTeam[] {
  const says = (name: string) => words.toLowerCase().includes(name.toLowerCase());
  const blocks = group.blocks.filter(({ name }) => says(name)).map(({ id }) => id);
  const byName = teams.filter(({ name }) => says(name));
  const byBlock = teams.filter((team) => team.blocks.some((id) => blocks.includes(id)));
  return byName.length > 0 ? byName : byBlock.length > 0 ? byBlock : teams;
}

function ofOneTeam(teams: readonly SharedTeam[], go: (team: SharedTeam) => Part): Part {
  const [team] = teams;
  if (!team) return saying('team.none');
  return teams.length > 1
    ? saying('team.which', { teams: { list: teams.map(({ name }) => name) } })
    : go(team);
}

function preview(world: World, group: Group, team: SharedTeam, from: Day, memory: AgentMemory): Part {
  const plan = teamPlan(world, group, team, from);
  const activity = activityName(team.work);
  if (plan.order.visits.length === 0) return saying('team.nothing', { team: team.name, activity });
  const broadcast = teamBroadcast(world, group, plan);
  if (!broadcast || broadcast.appointments.length === 0)
    return saying('team.nothing-new', { team: team.name });
  const { visits } = plan.order;
  const names = new Map(plan.plots.map((plot) => [plot.id, plot.name]));
  const [first, last] = [visits[0], visits.at(-1)];
  const order = visits.map(({ plotId }) => names.get(plotId) ?? '');
  const values = { team: team.name, activity, count: visits.length };
  const say: Sentence[] = [
    {
      key: 'team.preview',
      values: { ...values, day: { day: first?.on ?? from }, till: { day: last?.doneOn ?? from } },
    },
    ...lateWords(plan, names),
    { key: 'team.order', values: { plots: { list: order } }, spare: true },
    ...previewOf(world, group, broadcast),
  ];
  return propose(world, memory, { do: 'team', teamId: team.id, from }, say);
}

function lateWords({ order }: TeamPlan, names: ReadonlyMap<string, string>): Sentence[] {
  const late = order.visits
    .filter(({ lateDays }) => lateDays > 0)
    .toSorted((a, b) => b.lateDays - a.lateDays);
  if (late.length === 0) return [{ key: 'team.in-time', spare: true }];
  const plots = { list: late.slice(0, NAMED).map(({ plotId }) => names.get(plotId) ?? '') };
  return [{ key: 'team.late', values: { count: order.lateDays, plots } }];
}
