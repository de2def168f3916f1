/** `npm run -s rulebook [-- --write | --scheme FILE]`: shows a rulebook to an agronomist, or writes the default one to `scripts/rulebook.md`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Rulebook } from '../agronomy/rulebook.ts';
import { rulebookPage } from '../agronomy/rulebook-page.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { schemeBook } from './scheme-book.ts';

const MESSAGES = fileURLToPath(new URL('../../locales/en/messages.json', import.meta.url));
/** Where the page is kept, to be read without running anything. */
export const RULEBOOK_FILE = fileURLToPath(new URL('../../scripts/rulebook.md', import.meta.url));

/** The page of a scheme's book, of the default one without, with the English reasons (`why.<rule>`) that growers are given. */
export function makeRulebookPage(book: Rulebook = DEFAULT_RULEBOOK, scheme?: string): string {
  const { why = {} } = JSON.parse(readFileSync(MESSAGES, 'utf8')) as { why?: Record<string, string> };
  const reasons = new Map(Object.entries(why));
  return rulebookPage(book, (rule) => reasons.get(rule), scheme);
}

/** Prints the page, or writes it to `file` with `--write`; returns 2 when the request or the scheme's file cannot be understood. */
export function rulebookCommand(args: readonly string[], file: string = RULEBOOK_FILE): number {
  const request = readRequest(args);
  if (request === null) return complain(['usage: npm run -s rulebook [-- --write | --scheme FILE]']);
  if (request.scheme !== undefined) return printOwn(request.scheme);
  if (request.write) writeFileSync(file, makeRulebookPage());
  else process.stdout.write(makeRulebookPage());
  return 0;
}

/** Prints the book of the scheme in this file, or its mistakes. */
function printOwn(path: string): number {
  const own = schemeBook(path);
  if (!own.ok) return complain(own.mistakes);
  process.stdout.write(makeRulebookPage(own.book, own.name));
  return 0;
}

/** What is asked for; null for arguments that are not known or do not go together. */
function readRequest(args: readonly string[]): { write: boolean; scheme: string | undefined } | null {
  try {
    const options = { write: { type: 'boolean' }, scheme: { type: 'string' } } as const;
    const { write = false, scheme } = parseArgs({ args: [...args], options }).values;
    return write && scheme !== undefined ? null : { write, scheme };
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}

function complain(lines: readonly string[]): number {
  for (const line of lines) process.stderr.write(`${line}\n`);
  return 2;
}
