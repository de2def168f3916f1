/** Turns the text of a scheme file into what the store plants. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Day } from '../plan/day.ts';
import type { WordTaken } from '../scheme/area-unit.ts';
import { readSchemeFile, type SchemeMistake } from '../scheme/scheme-file.ts';
import type { SchemeFile } from '../scheme/scheme-shape.ts';
import { localDay } from '../store/local-time.ts';
import type { Db } from '../store/open.ts';
import { firstLoadedOn } from '../store/plant-scheme.ts';
import type { SchemeSeed, SchemeSettings } from '../store/scheme-seed.ts';

/** A scheme file that cannot be used, with every mistake in it. */
export class SchemeFileError extends Error {
  readonly mistakes: readonly SchemeMistake[];
  constructor(mistakes: readonly SchemeMistake[]) {
    super(mistakes.map(({ place, what }) => `${place}: ${what}`).join('\n'));
    this.name = 'SchemeFileError';
    this.mistakes = mistakes;
  }
}

/**
 * The seed of a scheme file. Days written as "+25" count from the day on which this database first loaded the scheme,
 * so that a restart moves nothing; `book` is what the file's own figures stand in for, the default rulebook when not
 * given, and `taken` tells which words the languages have. Throws a SchemeFileError that lists every mistake.
 */
export async function seedOfFile(
  db: Db,
  text: string,
  nowMs: number,
  book?: Rulebook,
  taken?: WordTaken,
): Promise<SchemeSeed> {
  const read = (loadedOn: Day) => readFile(text, loadedOn, book, taken);
  const first = read(0);
  const loadedOn = (await firstLoadedOn(db, first.id)) ?? localDay(nowMs, first.timeZone);
  return seedOf(read(loadedOn), loadedOn);
}

function readFile(text: string, loadedOn: Day, book?: Rulebook, taken?: WordTaken): SchemeFile {
  const reading = readSchemeFile(text, loadedOn, book, taken);
  if (!reading.ok) throw new SchemeFileError(reading.mistakes);
  return reading.scheme;
}

/** The seed of a scheme that was read with its days counted from `loadedOn`. */
export function seedOf(scheme: SchemeFile, loadedOn: Day): SchemeSeed {
  const { id, name, code, timeZone, country, blocks, people } = scheme;
  return {
    id,
    name,
    code,
    timeZone,
    country,
    loadedOn,
    blocks,
    people,
    settings: settingsOf(scheme),
    plots: scheme.plots.map(({ owner, block, ...plot }) => ({ ...plot, ownerId: owner, blockId: block })),
  };
}

/** What the file does not say is not there, so that a file without it has the same fingerprint as before. */
function settingsOf(scheme: SchemeFile): SchemeSettings {
  const { languages, officer, quietHours, remindAt, areaUnit, restDays, climate, nutrients, rulebook } =
    scheme;
  const { digestOn, pricePerPart, sharedTeams, textAfterScreens } = scheme;
  const canals = scheme.blocks.flatMap(({ id, canal }) => (canal ? [[id, canal] as const] : []));
  return {
    languages,
    officer,
    quiet: { fromMinute: minuteOf(quietHours.from), toMinute: minuteOf(quietHours.to) },
    remindFromMinute: minuteOf(remindAt),
    ...(areaUnit && { areaUnit }),
    ...(restDays && { restDays }),
    ...(climate && { climate }),
    ...(nutrients && { nutrients }),
    ...(canals.length > 0 && { canals: Object.fromEntries(canals) }),
    ...(rulebook && { rulebook }),
    ...(digestOn !== 1 && { digestOn }),
    ...(textAfterScreens && { textAfterScreens }),
    ...(pricePerPart && { pricePerPart }),
    ...(sharedTeams.length > 0 && { sharedTeams }),
  };
}

/** "17:30" as minutes since midnight: 1050. */
function minuteOf(clock: string): number {
  const [hour, minute] = clock.split(':').map(Number);
  return (hour ?? 0) * 60 + (minute ?? 0);
}
