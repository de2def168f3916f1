/** `npm run -s rulebook [-- --write]`: shows the rulebook to an agronomist, or writes it to `scripts/rulebook.md`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { rulebookPage } from '../agronomy/rulebook-page.ts';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';

const MESSAGES = fileURLToPath(new URL('../../locales/en/messages.json', import.meta.url));
/** Where the page is kept, to be read without running anything. */
export const RULEBOOK_FILE = fileURLToPath(new URL('../../scripts/rulebook.md', import.meta.url));

/** The page of the default rulebook, with the English reasons (`why.<rule>`) that growers are given. */
export function makeRulebookPage(): string {
  const { why = {} } = JSON.parse(readFileSync(MESSAGES, 'utf8')) as { why?: Record<string, string> };
  const reasons = new Map(Object.entries(why));
  return rulebookPage(DEFAULT_RULEBOOK, (rule) => reasons.get(rule));
}

/** Prints the page, or writes it to `file` with `--write`; returns 2 when the request cannot be understood. */
export function rulebookCommand(args: readonly string[], file: string = RULEBOOK_FILE): number {
  const write = readWrite(args);
  if (write === null) {
    process.stderr.write('usage: npm run -s rulebook [-- --write]\n');
    return 2;
  }
  if (write) writeFileSync(file, makeRulebookPage());
  else process.stdout.write(makeRulebookPage());
  return 0;
}

/** Whether to write; null for arguments that are not known. */
function readWrite(args: readonly string[]): boolean | null {
  try {
    const { values } = parseArgs({ args: [...args], options: { write: { type: 'boolean' } } });
    return values.write === true;
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}
