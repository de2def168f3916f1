/** Renders a message with sample values: the longest real text that a phone may get in this language. */
import { dayFromParts } from '../plan/day.ts';
import { dayText } from './calendar.ts';
import type { Catalogue, MessageForms } from './catalogue.ts';
import { SayError } from './fault.ts';
import type { Value } from './message.ts';
import { messageText } from './message-text.ts';
import { measure } from './parts.ts';
import type { Sample } from './samples.ts';
import { readTemplate } from './template.ts';

/** A message rendered with samples, in one plural form ("" without plurals). */
export interface SampleText {
  readonly key: string;
  readonly form: string;
  readonly text: string;
}

type Samples = Readonly<Record<string, Sample>>;

/** Its days show every weekday beside every month with a day of two figures. */
const YEAR = 2027;
/** Tried in order for a plural form: long first. */
const COUNTS = [28, 1, 2, 3, 5, 11, 21, 100, 1_000_000];

/** Every message in every plural form, in the catalogue's order; throws one SayError naming all placeholders without a sample. */
export function sampleTexts(catalogue: Catalogue, samples: Samples): SampleText[] {
  const values = resolveSamples(catalogue, samples);
  const names = new Set([...catalogue.messages.values()].flatMap(namesOf));
  const unknown = [...names].filter((name) => !values.has(name));
  if (unknown.length > 0) throw new SayError('missing-sample', catalogue.lang, 'messages', unknown);
  return [...catalogue.messages].flatMap(([key, forms]) =>
    [...forms.keys()].map((form) => ({ key, form, text: textOf(catalogue, key, form, values) })),
  );
}

/** The placeholders of a message, over all of its plural forms. */
export function namesOf(forms: MessageForms): string[] {
  return [...new Set([...forms.values()].flatMap((text) => readTemplate(text).names))];
}

/** Samples as values of this language; longest messages last, since they may hold the others. */
function resolveSamples(catalogue: Catalogue, samples: Samples): Map<string, Value> {
  const values = new Map<string, Value>();
  const patterns: [string, string][] = [];
  for (const [name, sample] of Object.entries(samples)) {
    if (typeof sample !== 'object') values.set(name, sample);
    else if ('longestOf' in sample) patterns.push([name, sample.longestOf]);
    else values.set(name, 'longestDay' in sample ? longestDay(catalogue) : sample);
  }
  const found = patterns.map(
    ([name, pattern]) => [name, longestMessage(catalogue, pattern, values)] as const,
  );
  for (const [name, text] of found) if (text !== null) values.set(name, text);
  return values;
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
  values: ReadonlyMap<string, Value>,
): string | null {
  const names = pattern.split('.');
  const texts: string[] = [];
  for (const [key, forms] of catalogue.messages) {
    const parts = key.split('.');
    if (!names.every((name, i) => name === '*' || name === parts[i])) continue;
    if (!namesOf(forms).every((name) => values.has(name))) continue;
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
  const values = readTemplate(source).names.map((name) => [name, samples.get(name) as Value] as const);
  const count = form === '' ? [] : [['count', countFor(catalogue, key, form)] as const];
  return messageText({ key, values: Object.fromEntries([...values, ...count]) }, catalogue);
}

/** A count that takes this plural form in this language. */
function countFor({ plurals, lang }: Catalogue, key: string, form: string): number {
  const count = form === 'zero' ? 0 : COUNTS.find((n) => n > 0 && plurals.select(n) === form);
  if (count === undefined) throw new SayError('missing-plural', lang, key, [form]);
  return count;
}
