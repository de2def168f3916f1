/** The texts of a language's corpus that must not be read as a report. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';

interface Refusals {
  readonly unclear: Readonly<Record<string, readonly string[]>>;
  readonly neverReport?: readonly string[];
}

/** All of them, each once, in the order of the file. */
export function refusedTexts(lang: string): readonly string[] {
  const path = new URL(`../../locales/${lang}/refusals.yaml`, import.meta.url);
  const { unclear, neverReport = [] } = parse(readFileSync(path, 'utf8')) as Refusals;
  return [...new Set([...Object.values(unclear).flat(), ...neverReport])];
}
