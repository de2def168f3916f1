/** TELL and a block: the agent's own words to its growers. */
import type { AgentReading } from '../../hear/reading.ts';
import type { Broadcast } from '../broadcast.ts';
import type { Block, Group } from '../group.ts';
import { type Part, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { propose } from './code.ts';
import type { AgentMemory } from './deed.ts';
import { agentOf } from './flood-deed.ts';
import { blocksMeant, whichBlock } from './meant.ts';
import { previewOf } from './preview.ts';

export function answerTell(world: World, group: Group, reading: AgentReading, memory: AgentMemory): Part {
  const blocks = blocksMeant(group, reading.block);
  const words = reading.text ?? '';
  if (words === '') return saying('agent.tell-how');
  if (!blocks || blocks.length === 0) return whichBlock(group);
  const broadcast = wordsBroadcast(world, blocks, words);
  if (!broadcast) return whichBlock(group);
  const names = { list: blocks.map(({ name }) => name) };
  return propose(world, memory, { do: 'words', blockIds: blocks.map(({ id }) => id), words }, [
    { key: 'preview.words', values: { blocks: names, words } },
    ...previewOf(world, group, broadcast),
  ]);
}

/** The broadcast of an agent's words; null for a world without an agent. */
export function wordsBroadcast(world: World, blocks: readonly Block[], words: string): Broadcast | null {
  const agent = agentOf(world);
  if (!agent) return null;
  return {
    kind: 'words',
    agentId: agent.id,
    agentName: agent.name,
    blockIds: blocks.map(({ id }) => id),
    blockNames: blocks.map(({ name }) => name),
    words,
  };
}
