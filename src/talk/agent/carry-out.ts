/** Does what an agent has confirmed: plans again as things stand now, and keeps who did it. */
import type { Broadcast } from '../broadcast.ts';
import type { Group } from '../group.ts';
import { type Part, saying } from '../turn.ts';
import type { World } from '../world.ts';
import type { Deed } from './deed.ts';
import { agentOf, waterBroadcast } from './flood-deed.ts';
import { changePeople } from './people-told.ts';
import { teamBroadcast, teamPlan } from './team.ts';
import { wordsBroadcast } from './tell.ts';
import { waterPlan } from './water-plan.ts';

/** The part of a confirmed deed; what it was about may be gone meanwhile. */
export function carryOut(world: World, group: Group, deed: Deed): Part {
  const part = done(world, group, deed);
  const agent = agentOf(world);
  if (!part || !agent) return saying('agent.gone');
  const note = { do: 'note-act', personId: agent.id, act: deed.do, details: JSON.stringify(deed) } as const;
  return { ...part, effects: [note, ...(part.effects ?? [])] };
}

function done(world: World, group: Group, deed: Deed): Part | null {
  switch (deed.do) {
    case 'flood': {
      const block = group.blocks.find(({ id }) => id === deed.blockId);
      return block ? sent(waterBroadcast(world, block, waterPlan(world, group, block, deed.on))) : null;
    }
    case 'words': {
      const blocks = group.blocks.filter(({ id }) => deed.blockIds.includes(id));
      return blocks.length > 0 ? sent(wordsBroadcast(world, blocks, deed.words)) : null;
    }
    case 'team': {
      const team = world.scheme.sharedTeams?.find(({ id }) => id === deed.teamId);
      return team ? sent(teamBroadcast(world, group, teamPlan(world, group, team, deed.from))) : null;
    }
    case 'people':
      return changePeople(world, group, deed);
  }
}

function sent(broadcast: Broadcast | null): Part | null {
  if (!broadcast) return null;
  return { ...saying('agent.sending'), effects: [{ do: 'broadcast', broadcast }] };
}
