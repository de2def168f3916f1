/** The shape of a scheme file: which fields there are and what each may hold. */
import { z } from 'zod';
import {
  climateSchema,
  joinWaySchema,
  restDaysSchema,
  teamsSchema,
  waySchema,
} from '../agronomy/plot-file.ts';
import { type Day, parseDay } from '../plan/day.ts';
import { areaUnitSchema } from './area-unit.ts';
import { openHoursSchema, priceSchema, rotationSchema, sharedTeamSchema } from './group-section.ts';
import { nutrientsSchema } from './nutrients-section.ts';
import { rulebookSchema } from './rulebook-section.ts';

const text = z.string().trim().min(1).max(60);
const id = z.string().regex(/^[a-z0-9-]{1,40}$/, 'small letters, digits and hyphens only');
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day like "17:00"');
const phone = z.string().regex(/^\+[1-9]\d{6,14}$/, 'a phone number with its country, like "+447700900001"');
const zone = z.string().refine(isTimeZone, { error: 'a time zone like "Africa/Dakar"' });

/** A block's canal: what flows at its head, the share of it that comes to the plots, and when it is open. */
const canalSchema = (day: ReturnType<typeof daySchema>) =>
  z.strictObject({
    litresPerSecond: z.number().positive().max(10_000),
    efficiency: z.number().gt(0).max(1).exactOptional(),
    open: openHoursSchema.exactOptional(),
    rotation: rotationSchema(day).exactOptional(),
  });

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }) !== null;
  } catch {
    return false;
  }
}

/** A day, as "2027-03-25", or counted from the day on which the file is first loaded: "+25". */
const daySchema = (loadedOn: Day) =>
  z.string().transform((written, context): Day => {
    const found = /^[+-]\d{1,3}$/.test(written) ? loadedOn + Number(written) : parseDay(written);
    if (found !== null) return found;
    context.addIssue({
      code: 'custom',
      message: `"${written}" is not a day (write "2027-03-25", or "+25" for 25 days after the first start)`,
    });
    return z.NEVER;
  });

/** The schema; `loadedOn` is the day from which "+25" counts. */
export const schemeSchema = (loadedOn: Day) => {
  const day = daySchema(loadedOn);
  const span = z.strictObject({ from: day.nullable(), to: day.nullable() }).default({ from: null, to: null });
  const block = z.strictObject({
    ...{ id, name: text, water: span, target: span },
    /** The local start of the rains, for plots that live on them. */
    rainFrom: day.exactOptional(),
    /** How those who join in the block grow; their tillage they tell themselves. */
    way: joinWaySchema.exactOptional(),
    canal: canalSchema(day).exactOptional(),
  });
  const person = z.strictObject({
    id,
    name: text,
    lang: z.string().regex(/^[a-z]{2,3}$/),
    role: z.enum(['grower', 'agent']).default('grower'),
    phones: z.array(phone).min(1),
    /** Blocks that an agent answers for; all when not given. */
    blocks: z.array(id).min(1).exactOptional(),
  });
  const plot = z.strictObject({
    id,
    number: z.string().regex(/^\d{1,3}$/, 'a number in quotes, like "3"'),
    label: z
      .string()
      .regex(/^[A-Za-z]{1,4}-?\d{1,4}$/, 'letters and a number, like "A-17"')
      .nullable()
      .default(null),
    owner: id,
    block: id,
    areaHa: z.number().positive().max(100),
    varietyDays: z.number().int().min(60).max(240),
    way: waySchema,
    teams: teamsSchema.exactOptional(),
    basalAdvised: z.boolean().exactOptional(),
  });
  return z.strictObject({
    id,
    name: text,
    code: z.string().regex(/^[A-Z]{3,12}$/, '3 to 12 capital letters'),
    timeZone: zone,
    country: z.string().regex(/^[A-Z]{2}$/, 'two capital letters, like "GB"'),
    languages: z.array(z.string().regex(/^[a-z]{2,3}$/)).min(1),
    officer: z.strictObject({ name: text, phone }),
    quietHours: z.strictObject({ from: clock, to: clock }).default({ from: '20:00', to: '07:00' }),
    remindAt: clock.default('17:00'),
    /** The weekday, 1 for Monday, on which agents are told how their blocks are. */
    digestOn: z.number().int().min(1).max(7).default(1),
    /** Whether what is recorded on numbered screens is confirmed by a text as well. */
    textAfterScreens: z.boolean().default(false),
    pricePerPart: priceSchema.exactOptional(),
    sharedTeams: z.array(sharedTeamSchema).default([]),
    areaUnit: areaUnitSchema.exactOptional(),
    restDays: restDaysSchema(day).exactOptional(),
    climate: climateSchema.exactOptional(),
    nutrients: nutrientsSchema.exactOptional(),
    rulebook: rulebookSchema.exactOptional(),
    blocks: z.array(block).min(1),
    people: z.array(person).min(1),
    plots: z.array(plot),
  });
};

export type SchemeFile = z.infer<ReturnType<typeof schemeSchema>>;
