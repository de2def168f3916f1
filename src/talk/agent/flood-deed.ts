/** The water turns of a block told to its growers: only to those for whom something is new. */
import type { Broadcast } from '../broadcast.ts';
import type { Block } from '../group.ts';
import type { World } from '../world.ts';
import { changedTurns, type WaterPlan } from './water-plan.ts';

/** The broadcast of a plan; null for a world without an agent. */
export function waterBroadcast(
  world: World,
  block: Block,
  plan: WaterPlan,
): (Broadcast & { kind: 'water' }) | null {
  const agent = agentOf(world);
  if (!agent) return null;
  return {
    kind: 'water',
    agentId: agent.id,
    agentName: agent.name,
    blockIds: [block.id],
    blockNames: [block.name],
    appointments: changedTurns(plan),
  };
}

/** The agent who texts. */
export const agentOf = ({ people }: World) => people.find(({ role }) => role === 'agent');
