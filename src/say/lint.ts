/** What must hold for a language's catalogue beside the source language's, and for every text it can make. Complaints are data. */
import type { Catalogue } from './catalogue.ts';
import { gsmSeptets } from './gsm.ts';
import { measure } from './parts.ts';
import { isKept, phrasesIn } from './phrases.ts';
import { namesOf, type SampleText } from './sampler.ts';

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
  const wanted = namesOf(source.messages.get(key) ?? forms);
  const complaints = lintForms(key, forms, catalogue);
  for (const [form, text] of forms) {
    const names = namesOf(new Map([[form, text]]));
    const lacking = wanted.filter((name) => !names.includes(name) && !(name === 'count' && form !== ''));
    const strange = names.filter((name) => !wanted.includes(name));
    if (lacking.length > 0) complaints.push(`${key} ${form}: without ${lacking.join(', ')}`);
    if (strange.length > 0) complaints.push(`${key} ${form}: unknown ${strange.join(', ')}`);
  }
  return complaints;
}

/** A message has either one plain form or every plural form of its language; `zero` is a free extra. */
function lintForms(key: string, forms: ReadonlyMap<string, string>, { plurals }: Catalogue): string[] {
  if (forms.has('')) return forms.size === 1 ? [] : [`${key}: both with and without plural forms`];
  const categories: readonly string[] = plurals.resolvedOptions().pluralCategories;
  const lacking = categories.filter((form) => !forms.has(form)).map((form) => `${key}: lacks _${form}`);
  const strange = [...forms.keys()].filter((form) => form !== 'zero' && !categories.includes(form));
  return [...lacking, ...strange.map((form) => `${key}: this language has no _${form}`)];
}

/** Complaints about rendered texts: alphabet, spaces, words that carriers keep, and length (reminders one part, others two). */
export function lintTexts(texts: readonly SampleText[], { calendar }: Catalogue): string[] {
  return texts.flatMap(({ key, form, text }) => {
    const complaints: string[] = [];
    if (calendar.alphabet === 'gsm7' && gsmSeptets(text) === null) complaints.push(`holds ${strayIn(text)}`);
    if (/\s{2}|^\s|\s$/.test(text)) complaints.push('has a space too many');
    const kept = phrasesIn(text, calendar.sendWords).filter(isKept);
    if (kept.length > 0) complaints.push(`asks for ${kept.join(', ')}, which carriers keep`);
    const room = (key.startsWith('reminder.') ? 1 : 2) + (calendar.alphabet === 'ucs2' ? 1 : 0);
    const { parts } = measure(text);
    if (parts > room) complaints.push(`takes ${parts} parts of ${room}`);
    return complaints.map((complaint) => `${key}${form && ` ${form}`}: ${complaint}`);
  });
}

function strayIn(text: string): string {
  return [...new Set(Array.from(text).filter((char) => gsmSeptets(char) === null))].join(' ');
}
