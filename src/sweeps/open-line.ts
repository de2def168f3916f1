/** Opens a line: database, migrations, schemes. Everything else is handed in, so that tests and seasons bring their own. */
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { Carrier } from '../carriers/carrier.ts';
import type { Clock } from '../clock.ts';
import { type MakeCode, randomCode } from '../store/codes.ts';
import { commitTogether } from '../store/commit-together.ts';
import type { MakeId } from '../store/ids.ts';
import { loadSchemes, type SchemeEntry } from '../store/load-schemes.ts';
import { migrate } from '../store/migrate.ts';
import { openDatabase } from '../store/open.ts';
import { plantScheme } from '../store/plant-scheme.ts';
import { planUnplanned } from './first-reminders.ts';
import type { Line, Log, Talk, Voice } from './line.ts';
import { schemeRulebook } from './scheme-rulebook.ts';
import { checkKeptUnit, takenIn } from './scheme-unit.ts';
import { seedOfFile } from './seed-of-file.ts';

export interface LineParts {
  /** Path of the database file; made when missing. */
  readonly path: string;
  readonly clock: Clock;
  readonly makeId: MakeId;
  /** By chance when not given. */
  readonly makeCode?: MakeCode;
  readonly carrier: Carrier;
  readonly talk: Talk;
  readonly log: Log;
  /** At least one; the first stands in for languages that are not spoken. */
  readonly voices: readonly Voice[];
  /** What a scheme's own figures stand in for. */
  readonly rulebook: Rulebook;
  /** Text of a scheme file to be planted; null keeps what the database has. */
  readonly schemeText: string | null;
  /** Text of a scheme file for a database that has no scheme yet, when none is to be planted. */
  readonly demoText?: string;
}

/** A line with what ends it. */
export interface OpenLine extends Line {
  /** Closes the database once nothing uses the line any more. */
  close(): Promise<void>;
}

/** There is no scheme to serve. */
export class NoSchemeError extends Error {
  constructor() {
    super('the database holds no scheme, and no scheme file is named');
    this.name = 'NoSchemeError';
  }
}

/**
 * Opens the line; throws when the database cannot be opened or migrated, the scheme file has mistakes, the figures kept
 * for a scheme no longer fit the rulebook or its unit of area the languages, or there is no scheme.
 */
export async function openLine(parts: LineParts): Promise<OpenLine> {
  const db = openDatabase(parts.path);
  try {
    await migrate(db);
    const taken = takenIn(parts.voices);
    const none = (await loadSchemes(db)).length === 0;
    const text = parts.schemeText ?? (none ? parts.demoText : undefined);
    if (text !== undefined)
      await plantScheme(db, await seedOfFile(db, text, parts.clock.nowMs(), parts.rulebook, taken));
    const schemes = await loadSchemes(db);
    if (schemes.length === 0) throw new NoSchemeError();
    for (const scheme of schemes) checkKeptUnit(scheme, taken);
    const line = assembled(parts, db, schemes);
    if (text !== undefined && text !== null) await planUnplanned(line);
    return line;
  } catch (error) {
    await db.destroy();
    throw error;
  }
}

function assembled(parts: LineParts, db: Line['db'], schemes: readonly SchemeEntry[]): OpenLine {
  const { clock, makeId, carrier, talk, log } = parts;
  const [first] = parts.voices;
  if (first === undefined) throw new Error('a line needs at least one language');
  const books = new Map(
    schemes.map(({ world, settings }) => [
      world.id,
      schemeRulebook(parts.rulebook, world.name, settings.rulebook),
    ]),
  );
  const voices = new Map(parts.voices.map((voice) => [voice.lang, voice]));
  return {
    db,
    clock,
    makeId,
    makeCode: parts.makeCode ?? randomCode,
    carrier,
    talk,
    log,
    together: commitTogether(db),
    schemes: () => schemes,
    rulebook: ({ world }) => books.get(world.id) ?? parts.rulebook,
    voices: () => parts.voices,
    voice: (lang) => voices.get(lang) ?? first,
    close: () => db.destroy(),
  };
}
