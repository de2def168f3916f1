/** The script of an agent's season: what the agents text on which day, what comes from files, and how the growers are. */
import { parse } from 'yaml';
import { z } from 'zod';
import { growersSchema } from './season-file.ts';

const when = { day: z.number().int().nonnegative(), at: z.string().regex(/^\d{2}:\d{2}$/) };

const file = z.strictObject({
  start: z.iso.date(),
  days: z.number().int().positive(),
  /** Phones of which everything is shown; of others only what was sent to many, or by an agent. */
  shows: z.array(z.string()).min(1),
  growers: growersSchema,
  acts: z.array(
    z.union([
      /** `{code}` in a text stands for the code in the last answer to that phone. */
      z.strictObject({ ...when, phone: z.string(), text: z.string(), note: z.string().exactOptional() }),
      /** A table of growers beside the script: its mistakes where it has some, else taken in. */
      z.strictObject({ ...when, import: z.string(), note: z.string().exactOptional() }),
    ]),
  ),
});

export type AgentSeasonScript = z.infer<typeof file>;
export type AgentAct = AgentSeasonScript['acts'][number];

/** Reads the script; throws with every mistake when it has some. */
export function readAgentSeason(yamlText: string): AgentSeasonScript {
  return file.parse(parse(yamlText));
}
