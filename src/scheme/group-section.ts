/** What a scheme's file says for the group: the shared teams, the price of a text, when a canal is open. */
import { z } from 'zod';
import type { Activity } from '../agronomy/season.ts';
import type { Day } from '../plan/day.ts';
import type { PlacedMistake } from './placed-mistake.ts';

/** Work that a shared team does. */
export const TEAM_WORK = ['plough', 'puddle'] as const satisfies readonly Activity[];

const HOURS_IN_DAY = 24;
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$|^24:00$/, 'a time of day like "06:00"');

/** "06:30" as hours since midnight: 6.5. */
const hourOf = (time: string) => Number(time.slice(0, 2)) + Number(time.slice(3)) / 60;

/** The hours of the day between which a canal is open; it is closed at night. */
export const openHoursSchema = z
  .strictObject({ from: clock, to: clock })
  .transform(({ from, to }) => ({ fromHour: hourOf(from), toHour: hourOf(to) }))
  .refine(({ fromHour, toHour }) => fromHour < toHour, 'the end comes before the beginning');

/** Of every so many days, counted from one of them, the first few are this block's: blocks take the canal in turn. */
export const rotationSchema = (day: z.ZodType<Day, string>) =>
  z
    .strictObject({ start: day, every: z.number().int().min(1).max(60), days: z.number().int().min(1) })
    .refine(({ every, days }) => days <= every, 'more days than there are in a round');

export const priceSchema = z.strictObject({
  amount: z.number().positive().max(1000),
  /** ISO 4217. */
  currency: z.string().regex(/^[A-Z]{3}$/, 'three capital letters, like "GBP"'),
});

/** A tractor or a pair of animals that plots share. */
export const sharedTeamSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]{1,40}$/, 'small letters, digits and hyphens only'),
  name: z.string().trim().min(1).max(30),
  work: z.enum(TEAM_WORK),
  /** Ids of the blocks that it serves. */
  blocks: z.array(z.string()).min(1),
  hoursPerHa: z.number().positive().max(500),
  hoursADay: z.number().positive().max(HOURS_IN_DAY),
  /** From one plot to the next. */
  movingHours: z.number().min(0).max(HOURS_IN_DAY).default(0),
});

export type PricePerPart = z.infer<typeof priceSchema>;
export type SharedTeam = z.infer<typeof sharedTeamSchema>;

/** When a canal is open. */
export interface CanalHours {
  readonly open?: { readonly fromHour: number; readonly toHour: number };
  readonly rotation?: { readonly start: Day; readonly every: number; readonly days: number };
}

interface GroupFile {
  readonly blocks: readonly { readonly id: string }[];
  readonly people: readonly {
    readonly role: string;
    readonly blocks?: readonly string[];
  }[];
  readonly sharedTeams: readonly SharedTeam[];
}

/** Blocks that are not there, blocks of people who are no agents, and teams named twice. */
export function groupMistakes({ blocks, people, sharedTeams }: GroupFile): readonly PlacedMistake[] {
  const unknown = (ids: readonly string[], path: readonly (string | number)[]) =>
    ids.flatMap((id, index) =>
      blocks.some((block) => block.id === id)
        ? []
        : [{ path: [...path, 'blocks', index], what: `no block has the id "${id}"` }],
    );
  return [
    ...people.flatMap(({ role, blocks: own = [] }, index) => [
      ...unknown(own, ['people', index]),
      ...(role === 'grower' && own.length > 0
        ? [{ path: ['people', index, 'blocks'], what: 'only an agent answers for blocks' }]
        : []),
    ]),
    ...sharedTeams.flatMap((team, index) => unknown(team.blocks, ['sharedTeams', index])),
    ...sharedTeams.flatMap(({ id }, index) =>
      sharedTeams.findIndex((team) => team.id === id) < index
        ? [{ path: ['sharedTeams', index, 'id'], what: `"${id}" is there twice` }]
        : [],
    ),
  ];
}
