/** What an agent's phone is answered, beside what any phone is. */
import type { AgentReading, AskReading, Reading } from '../../hear/reading.ts';
import type { TextEvent } from '../event.ts';
import type { Group } from '../group.ts';
import { ownTurns } from '../own-turns.ts';
import { officer } from '../phrases.ts';
import type { Topic } from '../state.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { carryOut } from './carry-out.ts';
import { answerCode } from './code.ts';
import type { AgentMemory } from './deed.ts';
import { answerDigest } from './digest.ts';
import { answerFlood } from './flood.ts';
import { blocksMeant, plotsNamed, plotsOf, whichBlock } from './meant.ts';
import { inPages } from './pages.ts';
import { answerPeople } from './people.ts';
import { answerPlotName } from './plot.ts';
import { answerLate, answerReady, langOf } from './ready.ts';
import { answerSteps } from './steps.ts';
import { answerBreakdown, answerTeam } from './team.ts';
import { answerTell } from './tell.ts';
import { answerTurns } from './turns.ts';

/** A grower may ask for the own turns. */
function answerGrower(world: World, { what }: AgentReading): Part {
  if (what !== 'turns' && what !== 'tiller') return saying('agent.not-yours', officer(world));
  const turns = ownTurns(world);
  return turns.length > 0 ? { say: turns } : saying('own-turn.none', officer(world));
}

/** The answer to a command; a phone that is no agent's is told whose it is. */
export function answerAgent(
  world: World,
  reading: AgentReading,
  event: TextEvent,
  memory: AgentMemory,
): Part {
  const { group } = world;
  if (!group) return answerGrower(world, reading);
  switch (reading.what) {
    case 'flood':
      return answerFlood(world, group, reading, memory);
    case 'tell':
      return answerTell(world, group, reading, memory);
    case 'ready':
      return answerReady(world, group, reading);
    case 'late':
      return answerLate(world, group, reading);
    case 'turns':
      return answerTurns(world, group, reading);
    case 'tiller':
      return answerTeam(world, group, reading, event.text, memory);
    case 'add':
    case 'move':
    case 'remove':
      return answerPeople(world, group, reading, event, memory);
    case 'steps':
      return answerSteps(world, group, reading);
    case 'digest': {
      const blocks = blocksMeant(group, reading.block);
      return blocks && blocks.length > 0 ? answerDigest(world, group, blocks) : whichBlock(group);
    }
    case 'more':
      return memory.rest.length === 0
        ? saying('agent.no-more')
        : inPages(group, langOf(world), [], memory.rest);
    case 'stopped':
      return stopped(world, group, reading);
    case 'code':
      return answerCode(world, memory, reading.text ?? '', (deed) => carryOut(world, group, deed));
  }
}

/** The agent's own phone first: who has stopped it may wonder where the summaries are. */
function stopped(world: World, group: Group, { block }: AgentReading): Part {
  const blocks = blocksMeant(group, block);
  if (!blocks || blocks.length === 0) return whichBlock(group);
  const plots = plotsOf(group, blocks).filter(({ grower }) => grower.stopped || grower.silent);
  const own: readonly Sentence[] = world.stopped ? [{ key: 'stopped.own' }] : [];
  if (plots.length === 0)
    return { say: [...own, { key: world.stopped ? 'stopped.nobody-else' : 'stopped.nobody' }] };
  const lines = plots.map(({ name, grower }) => ({
    key: grower.silent ? 'stopped.silent' : 'stopped.one',
    values: { plot: name, name: grower.name },
  }));
  const head = { key: 'stopped.plots', values: { count: plots.length } };
  return inPages(group, langOf(world), [...own, head], lines);
}

/**
 * What an agent means by a text that for a grower would be something else: a plot of the group by its name, the shared team
 * broken, the next work of all. Null when it is nothing of the group's.
 */
export function ofTheGroup(
  world: World,
  event: TextEvent,
  memory: AgentMemory,
  topic: Topic | null,
): Part | null {
  const { group } = world;
  if (!group) return null;
  const { readings, unclear } = event.heard;
  const [only] = readings;
  const drops = only?.kind === 'undo' || (only?.kind === 'answer' && only.answer === 'no');
  if (drops && memory.pending) return { ...saying('agent.dropped'), agent: { pending: null } };
  if (only?.kind === 'trouble' && only.what === 'no-machine' && only.plots.length === 0)
    return only.over ? saying('team.fixed') : answerBreakdown(world, group, only, event.text, memory);
  if (world.plots.length > 0) return null;
  if (unclear?.why === 'which-day' || unclear?.why === 'future-date') return saying('agent.which-day');
  const [named] = event.details.plots;
  const bare = unclear !== null || (only?.kind === 'ask' && only.about === 'next');
  if (named !== undefined && named !== 'all' && bare) return answerPlotName(world, group, named);
  if (only?.kind === 'ask' && ABOUT_ALL.includes(only.about) && only.plots.length === 0)
    return answerReady(world, group, { kind: 'agent', what: 'ready', assumed: [] });
  const work = readings.find((one) => WORK.includes(one.kind));
  if (work && 'plots' in work) return growersOwn(group, work.plots ?? []);
  const asksOwn = only?.kind === 'trouble' || (only?.kind === 'ask' && only.about !== 'help');
  return asksOwn && only.plots.length === 0 && !isOfTopic(world, only, topic)
    ? saying('agent.growers-report')
    : null;
}

/** WHY of a plot that was just spoken of. */
const isOfTopic = ({ group }: World, one: Reading, topic: Topic | null) =>
  one.kind === 'ask' && one.about === 'why' && (group?.plots.some(({ id }) => id === topic?.plotId) ?? false);

const ABOUT_ALL: readonly AskReading['about'][] = ['next', 'plots', 'dates'];
const WORK: readonly Reading['kind'][] = ['report', 'not-done', 'intend'];

/** Work is reported by those who did it: a forged sender must not write it down for them. */
function growersOwn(group: Group, [said]: readonly string[]): Part {
  const [plot] = said === undefined ? [] : plotsNamed(group, said);
  if (!plot || plot.grower.phone === null) return saying('agent.growers-report');
  const { name, grower } = plot;
  return saying('agent.grower-reports', { plot: name, name: grower.name, phone: grower.phone ?? '' });
}

/** For questions and sums about plots of the group: they stand under their names as if they were the phone's own. */
export function withGroupPlots(world: World, { heard }: TextEvent, topic: Topic | null): World {
  const { group } = world;
  const isOfGroup = group?.plots.some(({ id }) => id === topic?.plotId) ?? false;
  const asks = heard.readings.every(
    (one) =>
      (one.kind === 'ask' || one.kind === 'sum') &&
      (one.plots.length > 0 || (one.kind === 'ask' && one.about === 'why' && isOfGroup)),
  );
  if (!group || world.plots.length > 0 || heard.readings.length === 0 || !asks) return world;
  return { ...world, plots: group.plots.map((plot) => ({ ...plot, number: plot.name, label: plot.name })) };
}
