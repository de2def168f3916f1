/** The rulebook of a scheme's file, for the commands that take `--scheme FILE`. */
import { readFileSync } from 'node:fs';
import type { Rulebook } from '../agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { readSchemeFile } from '../scheme/scheme-file.ts';
import { schemeRulebook } from '../sweeps/scheme-rulebook.ts';

export type SchemeBook =
  | { readonly ok: true; readonly name: string; readonly book: Rulebook }
  | { readonly ok: false; readonly mistakes: readonly string[] };

/** The scheme's name and its own book; every mistake of its file, with its place, when it cannot be read. */
export function schemeBook(path: string): SchemeBook {
  const text = readText(path);
  if (text === null) return { ok: false, mistakes: [`${path} cannot be read`] };
  const reading = readSchemeFile(text, 0);
  if (!reading.ok)
    return { ok: false, mistakes: reading.mistakes.map(({ place, what }) => `${path}: ${place}: ${what}`) };
  const { name, rulebook } = reading.scheme;
  return { ok: true, name, book: schemeRulebook(DEFAULT_RULEBOOK, name, rulebook) };
}

function readText(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}
