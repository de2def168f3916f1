/** The scheme's own file (YAML): who and what there is. Every mistake is listed with its line and place. */
import { isMap, LineCounter, type Node, parseDocument } from 'yaml';
import { z } from 'zod';
import { teamsSchema, waySchema } from '../agronomy/plot-file.ts';
import { type Day, parseDay } from '../plan/day.ts';
import { schemeMistakes } from './scheme-mistakes.ts';

const text = z.string().trim().min(1).max(60);
const id = z.string().regex(/^[a-z0-9-]{1,40}$/, 'small letters, digits and hyphens only');
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day like "17:00"');
const phone = z.string().regex(/^\+[1-9]\d{6,14}$/, 'a phone number with its country, like "+447700900001"');
const zone = z.string().refine(isTimeZone, { error: 'a time zone like "Africa/Dakar"' });

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }) !== null;
  } catch {
    return false;
  }
}

/** A day, as "2027-03-25", or counted from the day on which the file is first loaded: "+25". */
const daySchema = (loadedOn: Day) =>
  z
    .string()
    .transform((written, context): Day => {
      const found = /^[+-]\d{1,3}$/.test(written) ? loadedOn + Number(written) : parseDay(written);
      if (found !== null) return found;
      context.addIssue({
        code: 'custom',
        message: `"${written}" is not a day (write "2027-03-25", or "+25" for 25 days after the first start)`,
      });
      return z.NEVER;
    })
    .nullable();

const schemeSchema = (loadedOn: Day) => {
  const span = z
    .strictObject({ from: daySchema(loadedOn), to: daySchema(loadedOn) })
    .default({ from: null, to: null });
  const block = z.strictObject({ id, name: text, water: span, target: span });
  const person = z.strictObject({
    id,
    name: text,
    lang: z.string().regex(/^[a-z]{2,3}$/),
    role: z.enum(['grower', 'agent']).default('grower'),
    phones: z.array(phone).min(1),
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
    blocks: z.array(block).min(1),
    people: z.array(person).min(1),
    plots: z.array(plot),
  });
};

export type SchemeFile = z.infer<ReturnType<typeof schemeSchema>>;

export interface SchemeMistake {
  /** "line 12, plots 3, areaHa". */
  readonly place: string;
  readonly what: string;
}

export type SchemeReading =
  | { readonly ok: true; readonly scheme: SchemeFile }
  | { readonly ok: false; readonly mistakes: readonly SchemeMistake[] };

/** Reads a scheme file's text. `loadedOn` is the day from which "+25" counts. */
export function readSchemeFile(yamlText: string, loadedOn: Day): SchemeReading {
  const lines = new LineCounter();
  const document = parseDocument(yamlText, { lineCounter: lines });
  const placeOf = (path: readonly PropertyKey[]) =>
    [lineOf(document.contents, path, lines), ...path.map(oneBased)].filter(Boolean).join(', ');
  if (document.errors.length > 0) {
    return {
      ok: false,
      mistakes: document.errors.map(({ message, linePos }) => ({
        place: `line ${linePos?.[0].line ?? 1}`,
        what: message.split('\n')[0] ?? '',
      })),
    };
  }
  const read = schemeSchema(loadedOn).safeParse(document.toJS());
  if (!read.success) {
    return {
      ok: false,
      mistakes: read.error.issues.map(({ path, message }) => ({
        place: placeOf(path) || 'line 1',
        what: message,
      })),
    };
  }
  const mistakes = schemeMistakes(read.data).map(({ path, what }) => ({ place: placeOf(path), what }));
  return mistakes.length > 0 ? { ok: false, mistakes } : { ok: true, scheme: read.data };
}

const oneBased = (part: PropertyKey) => (typeof part === 'number' ? String(part + 1) : String(part));

/** The line of the deepest node that exists on this path. */
function lineOf(contents: unknown, path: readonly PropertyKey[], lines: LineCounter): string {
  let node = contents as Node | null;
  let offset = 0;
  for (const part of path) {
    const next: unknown =
      node && 'get' in node && typeof node.get === 'function' ? node.get(part, true) : null;
    if (isMap(node)) offset = keyOffset(node.items, part) ?? offset;
    if (!next || typeof next !== 'object') break;
    node = next as Node;
    offset = node.range?.[0] ?? offset;
  }
  return `line ${lines.linePos(offset).line}`;
}

function keyOffset(items: readonly { readonly key: unknown }[], part: PropertyKey): number | undefined {
  const found = items.find(
    ({ key }) => key !== null && typeof key === 'object' && 'value' in key && key.value === part,
  );
  return (found?.key as Node | undefined)?.range?.[0];
}
