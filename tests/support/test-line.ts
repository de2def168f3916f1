/** A line on a database of its own, with a clock that the test sets and a conversation of a few words. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { deskCarrier } from '../../src/carriers/desk.ts';
import { type SettableClock, simulatedClock } from '../../src/clock.ts';
import { countedIds } from '../../src/store/ids.ts';
import type { Log } from '../../src/sweeps/line.ts';
import { type LineParts, type OpenLine, openLine } from '../../src/sweeps/open-line.ts';
import { fakeTalk, fakeVoice } from './fake-talk.ts';
import { VALLEY } from './valley-scheme.ts';

/** Noon in Nairobi on Wednesday 10 March 2027. */
export const NOON_MS = Date.parse('2027-03-10T09:00:00Z');
export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

/** A log that keeps its lines for the test to read. */
export function keptLog(): Log & { readonly lines: readonly string[] } {
  const lines: string[] = [];
  const keep = (facts: object, message: string) => void lines.push(`${message} ${JSON.stringify(facts)}`);
  return { lines, info: keep, warn: keep, error: keep };
}

/** A line for one test. */
export interface TestLine extends OpenLine {
  readonly clock: SettableClock;
  readonly log: ReturnType<typeof keptLog>;
  /** Path of its database file. */
  readonly path: string;
}

/** A new folder that `afterwards` removes. */
export function newFolder(afterwards: (undo: () => void) => void): string {
  const folder = mkdtempSync(join(tmpdir(), 'bundline-'));
  afterwards(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Opens a line of the test valley; `afterwards` is the test's own hook that closes it and removes its files. */
export async function testLine(
  afterwards: (undo: () => Promise<void> | void) => void,
  parts: Partial<LineParts> = {},
): Promise<TestLine> {
  const path = parts.path ?? join(newFolder(afterwards), 'line.db');
  const [clock, log] = [simulatedClock(NOON_MS), keptLog()];
  const common = { talk: fakeTalk, carrier: deskCarrier(), rulebook: DEFAULT_RULEBOOK, schemeText: VALLEY };
  const line = await openLine({
    path,
    clock,
    log,
    makeId: countedIds('t'),
    voices: [fakeVoice()],
    ...common,
    ...parts,
  });
  let closed: Promise<void> | null = null;
  const close = () => {
    closed ??= line.close();
    return closed;
  };
  afterwards(close);
  return { ...line, clock: (parts.clock as SettableClock | undefined) ?? clock, log, path, close };
}
