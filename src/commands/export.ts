/** `export --out FOLDER`: a scheme's plots, reports and plans as tables, and a calendar for each block. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { localDay } from '../store/local-time.ts';
import type { Line } from '../sweeps/line.ts';
import { complain } from './complain.ts';
import { actsCsv } from './exports/acts-csv.ts';
import { blockEvents } from './exports/block-calendar.ts';
import { blockFile, type Chosen, choose } from './exports/chosen.ts';
import { calendarText } from './exports/icalendar.ts';
import { plannedPlots } from './exports/planned-plots.ts';
import { plansCsv } from './exports/plans-csv.ts';
import { plotsCsv } from './exports/plots-csv.ts';
import { reportsCsv } from './exports/reports-csv.ts';
import { visitsOfScheme } from './exports/visits.ts';
import { type DeskSettings, openSettingsLine } from './open-desk-line.ts';
import { chooseScheme, schemeChosen } from './scheme-chosen.ts';

const USAGE = 'usage: npm run export -- --out FOLDER [--block NAME] [--phones] [--scheme ID]';
const OPTIONS = {
  out: { type: 'string' },
  block: { type: 'string' },
  phones: { type: 'boolean' },
  scheme: { type: 'string' },
} as const;

/** Runs it: files that are there already are written anew. Exit code 2 when the command or a name is not understood. */
export async function exportCommand(args: readonly string[], settings: DeskSettings): Promise<number> {
  const asked = readArguments(args);
  const folder = asked?.out;
  if (asked === null || folder === undefined) return complain(USAGE);
  const line = await openSettingsLine(settings);
  try {
    const scheme = schemeChosen(line.schemes(), asked.scheme);
    if (scheme === null) return complain(chooseScheme(line.schemes()));
    const chosen = choose(scheme, asked.block);
    if (chosen === null)
      return complain(`the blocks are ${scheme.world.blocks.map(({ name }) => name).join(', ')}`);
    return writeFiles(folder, await exportFiles(line, chosen, { phones: asked.phones === true }));
  } finally {
    await line.close();
  }
}

function writeFiles(folder: string, files: readonly (readonly [string, string])[]): number {
  try {
    mkdirSync(folder, { recursive: true });
    for (const [name, text] of files) {
      writeFileSync(join(folder, name), text);
      console.log(join(folder, name));
    }
    return 0;
  } catch (error) {
    return complain(`the files cannot be written: ${(error as Error).message}`);
  }
}

function readArguments(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS }).values;
  } catch {
    return null;
  }
}

/** The files by their names. */
export async function exportFiles(
  line: Line,
  chosen: Chosen,
  options: { readonly phones: boolean },
): Promise<readonly (readonly [string, string])[]> {
  const { scheme, blocks } = chosen;
  const nowMs = line.clock.nowMs();
  const plots = await plannedPlots(line.db, chosen, line.rulebook(scheme), localDay(nowMs, scheme.timeZone));
  const visits = await visitsOfScheme(line.db, scheme.world.id);
  const calendars = blocks.map((block) => {
    const events = blockEvents(block, plots, visits, scheme.timeZone);
    const text = calendarText(`${scheme.world.name}: ${block.name}`, events, nowMs);
    return [`${blockFile(scheme.world.id, block.id)}.ics`, text] as const;
  });
  return [
    ['plots.csv', await plotsCsv(line.db, chosen, options)],
    ['reports.csv', await reportsCsv(line.db, chosen)],
    ['plans.csv', plansCsv(plots)],
    ['acts.csv', await actsCsv(line.db, chosen)],
    ...calendars,
  ];
}
