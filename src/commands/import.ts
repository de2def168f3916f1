/** `import FILE.csv`: growers and their plots from a table; tells what it would do, and does it with `--write`. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { mistakeLine } from '../scheme/file-mistake.ts';
import type { PeopleReading } from '../scheme/people-file.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import type { OpenLine } from '../sweeps/open-line.ts';
import { complain } from './complain.ts';
import { importPeople, type PeopleFile, readPeople } from './import-people.ts';
import { type DeskSettings, openSettingsLine } from './open-desk-line.ts';
import { chooseScheme, schemeChosen } from './scheme-chosen.ts';

const USAGE = 'usage: npm run import -- people.csv [--write] [--scheme ID]';

interface Asked {
  readonly file: PeopleFile;
  readonly write: boolean;
  readonly scheme: string | undefined;
}

/** Runs it; the exit code is 1 when the file has mistakes, 2 when it cannot be read or the command is not understood. */
export async function importCommand(args: readonly string[], settings: DeskSettings): Promise<number> {
  const asked = readArguments(args);
  if (typeof asked === 'string') return complain(asked);
  const line = await openSettingsLine(settings);
  try {
    const scheme = schemeChosen(line.schemes(), asked.scheme);
    return scheme === null ? complain(chooseScheme(line.schemes())) : await run(line, scheme, asked);
  } finally {
    await line.close();
  }
}

function readArguments(args: readonly string[]): Asked | string {
  const options = { write: { type: 'boolean' }, scheme: { type: 'string' } } as const;
  try {
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true });
    const [path, ...more] = positionals;
    if (path === undefined || more.length > 0) return USAGE;
    const file = { name: basename(path), bytes: readFileSync(path) };
    return { file, write: values.write === true, scheme: values.scheme };
  } catch (error) {
    return error instanceof TypeError ? USAGE : `the file cannot be read: ${(error as Error).message}`;
  }
}

async function run(line: OpenLine, scheme: SchemeEntry, { file, write }: Asked): Promise<number> {
  const reading = write
    ? await importPeople(line, scheme, file)
    : await readPeople(line.db, scheme, file.bytes);
  if (!reading.ok) {
    for (const mistake of reading.mistakes) console.log(mistakeLine(mistake));
    console.error(`${counted(reading.mistakes.length, 'mistake')}; nothing was written`);
    return 1;
  }
  for (const row of summary(reading, scheme, write)) console.log(row);
  return 0;
}

function summary(
  { added, newGrowers, knownPlots }: Extract<PeopleReading, { ok: true }>,
  { world }: SchemeEntry,
  write: boolean,
): readonly string[] {
  const blocks = world.blocks.flatMap(({ id, name }) => {
    const plots = added.filter(({ blockId }) => blockId === id);
    return plots.length === 0 ? [] : [`${name}: ${counted(plots.length, 'new plot')}, ${hectares(plots)} ha`];
  });
  return [
    `${world.name}: ${counted(newGrowers, 'new grower')}, ${counted(added.length, 'new plot')}; known already: ${counted(knownPlots, 'plot')}`,
    ...blocks,
    ...(write ? [] : ['nothing was written; add --write to write it']),
  ];
}

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;

/** To the square metre, so that a sum of many does not end in a tail of digits. */
const hectares = (plots: readonly { readonly areaHa: number }[]) =>
  Math.round(plots.reduce((sum, { areaHa }) => sum + areaHa, 0) * 10_000) / 10_000;
