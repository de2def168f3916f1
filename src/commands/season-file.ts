/** The script of a simulated season: habits of growers, what goes wrong, and what they text in each language. Checked before it is played. */
import { parse } from 'yaml';
import { z } from 'zod';
import { ACTIVITIES } from '../agronomy/season.ts';

const perActivity = <T extends z.ZodType>(value: T) => z.partialRecord(z.enum(ACTIVITIES), value);

const habits = z.strictObject({
  says: z.enum(['plain', 'hurried']),
  late: perActivity(z.number().int().nonnegative()).default({}),
  /** Texts the day after, saying so. */
  yesterday: z.boolean().default(false),
  /** Also texts when longer work begins. */
  starts: z.boolean().default(false),
  /** What this grower answers to a numbered question. */
  picks: z.number().int().positive().default(1),
});

/** Growers by their names in small letters. */
export const growersSchema = z.record(z.string(), habits);

const WAY_FIELDS = ['water', 'tillage', 'establishment', 'nursery', 'ripens'] as const;
/** Ways that the whole scheme can be played in, by name: what every plot's way then is, beside its own means. */
const ways = z.record(z.string(), z.partialRecord(z.enum(WAY_FIELDS), z.string()));

const when = {
  day: z.number().int().nonnegative(),
  at: z.string().regex(/^\d{2}:\d{2}$/),
  phone: z.string(),
};

const seasonFile = z.strictObject({
  start: z.iso.date(),
  days: z.number().int().positive(),
  /** Days of a season in a named way: some take longer. */
  daysOfWays: z.number().int().positive(),
  ways,
  /** Hands, animals and tillers that there are where the whole scheme works with them. */
  teams: z.partialRecord(z.enum(['hoe', 'animals', 'two-wheel']), perActivity(z.number().positive())),
  growers: growersSchema,
  /** Rain in mm by day of the season: growers without a canal text it. */
  rain: z.array(z.strictObject({ day: z.number().int().nonnegative(), mm: z.number().nonnegative() })),
  /** Texts beside the reports of work: by their name in the language's file, or the same in all. */
  incidents: z.array(
    z.union([z.strictObject({ ...when, says: z.string() }), z.strictObject({ ...when, text: z.string() })]),
  ),
});

const textsFile = z.strictObject({
  /** What stands before the last of several plots, in either style. */
  and: z.strictObject({ plain: z.string(), hurried: z.string() }),
  /** A report of the day before: `{said}` is the report. */
  yesterday: z.string().includes('{said}'),
  /** Rain, with `{mm}`. */
  rain: z.string().includes('{mm}'),
  /** What is next for `{plot}`. */
  next: z.string().includes('{plot}'),
  /** The day on which `{plot}` is cut, where the variety ripens by the season. */
  'harvest-date': z.string().includes('{plot}'),
  plain: perActivity(z.string().includes('{plots}')),
  hurried: perActivity(z.string().includes('{plots}')),
  /** Longer work that has begun. */
  started: perActivity(z.string().includes('{plots}')),
  incidents: z.record(z.string(), z.string()),
});

export type SeasonScript = z.infer<typeof seasonFile>;
export type Habits = z.infer<typeof habits>;
/** What the growers of a season text in one language. */
export type SeasonTexts = z.infer<typeof textsFile>;
export type Incident = SeasonScript['incidents'][number];

/** Reads the script; throws with every mistake when it has some. */
export function readSeasonScript(yamlText: string): SeasonScript {
  return seasonFile.parse(parse(yamlText));
}

/** Reads the texts of one language; throws with every mistake when they have some. */
export function readSeasonTexts(yamlText: string): SeasonTexts {
  return textsFile.parse(parse(yamlText));
}

/** What is texted; throws when the language has no text of that name. */
export function incidentText(incident: Incident, texts: SeasonTexts): string {
  if ('text' in incident) return incident.text;
  const text = texts.incidents[incident.says];
  if (text === undefined) throw new Error(`the season's texts have no "${incident.says}"`);
  return text;
}
