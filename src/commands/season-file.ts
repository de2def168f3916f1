/** The script of a simulated season: habits of growers, their words, and what goes wrong. Checked before it is played. */
import { parse } from 'yaml';
import { z } from 'zod';
import { ACTIVITIES } from '../agronomy/season.ts';

const perActivity = <T extends z.ZodType>(value: T) => z.partialRecord(z.enum(ACTIVITIES), value);

const habits = z.strictObject({
  says: z.string(),
  late: perActivity(z.number().int().nonnegative()).default({}),
  /** Texts the day after, saying so. */
  yesterday: z.boolean().default(false),
  /** Also texts when longer work begins. */
  starts: z.boolean().default(false),
  /** What this grower answers to a numbered question. */
  picks: z.number().int().positive().default(1),
});

const WAY_FIELDS = ['water', 'tillage', 'establishment', 'nursery', 'ripens'] as const;
/** Ways that the whole scheme can be played in, by name: what every plot's way then is, beside its own means. */
const ways = z.record(z.string(), z.partialRecord(z.enum(WAY_FIELDS), z.string()));

const seasonFile = z.strictObject({
  start: z.iso.date(),
  days: z.number().int().positive(),
  /** Days of a season in a named way: some take longer. */
  daysOfWays: z.number().int().positive(),
  ways,
  /** Hands, animals and tillers that there are where the whole scheme works with them. */
  teams: z.partialRecord(z.enum(['hoe', 'animals', 'two-wheel']), perActivity(z.number().positive())),
  /** When a variety that ripens by the season is cut. */
  harvestDate: z.string(),
  words: z.record(z.string(), perActivity(z.string())),
  growers: z.record(z.string(), habits),
  /** Rain in mm by day of the season: growers without a canal text it. */
  rain: z.array(z.strictObject({ day: z.number().int().nonnegative(), mm: z.number().nonnegative() })),
  incidents: z.array(
    z.strictObject({
      day: z.number().int().nonnegative(),
      at: z.string().regex(/^\d{2}:\d{2}$/),
      phone: z.string(),
      text: z.string(),
    }),
  ),
});

export type SeasonScript = z.infer<typeof seasonFile>;
export type Habits = z.infer<typeof habits>;

/** Reads the script; throws with every mistake when it has some. */
export function readSeasonScript(yamlText: string): SeasonScript {
  return seasonFile.parse(parse(yamlText));
}
