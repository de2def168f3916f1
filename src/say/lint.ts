/** What must hold for a language's catalogue beside the source language's, and for every text it can make. Complaints are data. */
import type { Catalogue, MessageForms } from './catalogue.ts';
import { gsmSeptets } from './gsm.ts';
import { measure } from './parts.ts';
import { isKept, phrasesIn } from './phrases.ts';
import type { SampleText } from './sampler.ts';
import { namesIn } from './template.ts';

/** Complaints about keys, placeholders and plural forms, each "key: what"; empty when the catalogue says all that the source says. */
export function lintCatalogue(catalogue: Catalogue, source: Catalogue): string[] {
  const own = catalogue.messages;
  const lacking = [...source.messages.keys()].filter((key) => !own.has(key)).map((key) => `${key}: lacking`);
  const strange = [...own.keys()]
    .filter((key) => !source.messages.has(key))
    .map((key) => `${key}: not in ${source.lang}`);
  return [...lacking, ...strange, ...[...own.keys()].flatMap((key) => lintMessage(key, catalogue, source))];
}

function lintMessage(key: string, catalogue: Catalogue, source: Catalogue): string[] {
  const forms = catalogue.messages.get(key) ?? new Map<string, string>();
  const model = source.messages.get(key) ?? forms;
  const allowed = namesIn(model.values());
  const complaints = lintForms(key, forms, catalogue);
  for (const [form, text] of forms) {
    const names = namesIn([text]);
    const lacking = wantedNames(model, form).filter((name) => !names.includes(name));
    const strange = names.filter((name) => !allowed.includes(name));
    if (lacking.length > 0) complaints.push(`${label(key, form)}: without ${lacking.join(', ')}`);
    if (strange.length > 0) complaints.push(`${label(key, form)}: unknown ${strange.join(', ')}`);
  }
  return complaints;
}

/** What a form must hold: what the source's same form holds, else its most general one. A plural form may leave out its count. */
function wantedNames(model: MessageForms, form: string): string[] {
  const text = model.get(form) ?? model.get('other') ?? model.get('') ?? '';
  return namesIn([text]).filter((name) => form === '' || name !== 'count');
}

function label(key: string, form: string): string {
  return form === '' ? key : `${key} ${form}`;
}

/** A message has either one plain form or every plural form of its language; `zero` is a free extra. */
function lintForms(key: string, forms: MessageForms, { plurals }: Catalogue): string[] {
  if (forms.has('')) return forms.size === 1 ? [] : [`${key}: both with and without plural forms`];
  const categories: readonly string[] = plurals.resolvedOptions().pluralCategories;
  const lacking = categories.filter((form) => !forms.has(form)).map((form) => `${key}: lacks _${form}`);
  const strange = [...forms.keys()].filter((form) => form !== 'zero' && !categories.includes(form));
  return [...lacking, ...strange.map((form) => `${key}: this language has no _${form}`)];
}

/** Complaints about rendered texts: alphabet, spaces, words that carriers keep, and length (reminders and screens one part, others two). */
export function lintTexts(texts: readonly SampleText[], { calendar }: Catalogue): string[] {
  return texts.flatMap(({ key, form, text }) => {
    const complaints: string[] = [];
    if (calendar.alphabet === 'gsm7' && gsmSeptets(text) === null) complaints.push(`holds ${strayIn(text)}`);
    if (/\s{2}|^\s|\s$/.test(text)) complaints.push('has a space too many');
    const kept = phrasesIn(text, calendar.sendWords).filter(isKept);
    if (kept.length > 0) complaints.push(`asks for ${kept.join(', ')}, which carriers keep`);
    const room = roomFor(key, calendar.alphabet);
    const { parts } = measure(text);
    if (parts > room) complaints.push(`takes ${parts} parts of ${room}`);
    return complaints.map((complaint) => `${label(key, form)}: ${complaint}`);
  });
}

/** What is said in a reminder. */
const REMINDING = /^reminder\.|^rain\.ask$/;

/** Parts that a message may take; of a screen not even UCS-2 gives one more. */
function roomFor(key: string, alphabet: Catalogue['calendar']['alphabet']): number {
  if (key.startsWith('screen.')) return 1;
  return (REMINDING.test(key) ? 1 : 2) + (alphabet === 'ucs2' ? 1 : 0);
}

function strayIn(text: string): string {
  return [...new Set(Array.from(text).filter((char) => gsmSeptets(char) === null))].join(' ');
}
