/** The script of a simulated season: habits of growers, their words, and what goes wrong. Checked before it is played. */
import { parse } from 'yaml';
import { z } from 'zod';
import { waySchema } from '../agronomy/plot-file.ts';
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

/** Ways that the whole scheme can be played in, by name: what every plot's way then is, beside its own means. */
const ways = z.record(z.string(), waySchema.partial());

const seasonFile = z.strictObject({
  start: z.iso.date(),
  days: z.number().int().positive(),
  ways,
  words: z.record(z.string(), perActivity(z.string())),
  growers: z.record(z.string(), habits),
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
