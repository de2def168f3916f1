/** Renders a message with sample values: the longest real text that a phone may get in this language. */
import { dayFromParts } from '../plan/day.ts';
import { dayText } from './calendar.ts';
import type { Catalogue } from './catalogue.ts';
import { SayError } from './fault.ts';
import type { Value } from './message.ts';
import { messageText } from './message-text.ts';
import { measure } from './parts.ts';
import type { Sample } from './samples.ts';
import { namesIn, readTemplate } from './template.ts';

/** A message rendered with samples, in one plural form ("" without plurals). */
export interface SampleText {
  readonly key: string;
  readonly form: string;
  readonly text: string;
}

type Samples = Readonly<Record<string, Sample>>;
type Values = ReadonlyMap<string, Value>;

/** Its days show every weekday beside every month with a day of two figures. */
const YEAR = 2027;
/** Tried in order for a plural form: long first. */
const COUNTS = [28, 1, 2, 3, 5, 11, 21, 100, 1_000_000];

/** Every message in every plural form, in the catalogue's order; throws one SayError naming all placeholders without a sample. */
export function sampleTexts(catalogue: Catalogue, samples: Samples): SampleText[] {
  const values = resolveSamples(catalogue, samples);
  const unknown = [...catalogue.messages].flatMap(([key, forms]) =>
    namesIn(forms.values()).filter((name) => sampleOf(values, key, '', name) === undefined),
  );
  if (unknown.length > 0)
    throw new SayError('missing-sample', catalogue.lang, 'messages', [...new Set(unknown)]);
  return [...catalogue.messages].flatMap(([key, forms]) =>
    [...forms.keys()].map((form) => ({ key, form, text: textOf(catalogue, key, form, values) })),
  );
}

/** A placeholder's sample in this form of this message, else in this message, else anywhere. */
function sampleOf(values: Values, key: string, form: string, name: string): Value | undefined {
  return values.get(`${key}_${form}.${name}`) ?? values.get(`${key}.${name}`) ?? values.get(name);
}

/** Samples as values of this language, in the order written: a longest text may hold what was resolved before it. */
function resolveSamples(catalogue: Catalogue, samples: Samples): Values {
  const values = new Map<string, Value>();
  for (const [name, sample] of Object.entries(samples)) {
    const value = resolve(name, sample, catalogue, values);
    if (value !== null) values.set(name, value);
  }
  return values;
}

function resolve(name: string, sample: Sample, catalogue: Catalogue, values: Values): Value | null {
  if (typeof sample !== 'object') return sample;
  if ('longestOf' in sample) return longestMessage(catalogue, sample.longestOf, name, values);
  return 'longestDay' in sample ? longestDay(catalogue) : sample;
}

function longestDay({ calendar }: Catalogue): Value {
  const first = dayFromParts(YEAR, 1, 1) ?? 0;
  const days = Array.from({ length: 365 }, (_, i) => first + i);
  return { day: longestBy(days, (day) => dayText(day, calendar)) ?? first };
}

/** The longest text among the messages whose key begins as the pattern does ("*" for any one name); null when there is none. */
function longestMessage(
  catalogue: Catalogue,
  pattern: string,
  sampleName: string,
  values: Values,
): string | null {
  const names = pattern.split('.');
  const texts: string[] = [];
  for (const [key, forms] of catalogue.messages) {
    const parts = key.split('.');
    if (!names.every((name, i) => name === '*' || name === parts[i]) || sampleName.startsWith(`${key}.`))
      continue;
    if (!namesIn(forms.values()).every((name) => sampleOf(values, key, '', name) !== undefined)) continue;
    for (const form of forms.keys()) texts.push(textOf(catalogue, key, form, values));
  }
  return longestBy(texts, (text) => text);
}

/** The first of the longest, as a phone network counts. */
function longestBy<T>(things: readonly T[], textOfThing: (thing: T) => string): T | null {
  let best: { readonly thing: T; readonly units: number } | null = null;
  for (const thing of things) {
    const { units } = measure(textOfThing(thing));
    if (best === null || units > best.units) best = { thing, units };
  }
  return best === null ? null : best.thing;
}

function textOf(
  catalogue: Catalogue,
  key: string,
  form: string,
  samples: ReadonlyMap<string, Value>,
): string {
  const source = catalogue.messages.get(key)?.get(form) ?? '';
  const values = readTemplate(source).names.map(
    (name) => [name, sampleOf(samples, key, form, name) as Value] as const,
  );
  const count = form === '' ? [] : [['count', countFor(catalogue, key, form)] as const];
  return messageText({ key, values: Object.fromEntries([...values, ...count]) }, catalogue);
}

/** A count that takes this plural form in this language. */
function countFor({ plurals, lang }: Catalogue, key: string, form: string): number {
  const count = form === 'zero' ? 0 : COUNTS.find((n) => n > 0 && plurals.select(n) === form);
  if (count === undefined) throw new SayError('missing-plural', lang, key, [form]);
  return count;
}
