/** Opens the line for a command: the desk carrier, the real conversation, the demo scheme when nothing else is there. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import type { Carrier } from '../carriers/carrier.ts';
import { deskCarrier } from '../carriers/desk.ts';
import { type Clock, clockFrom, realClock } from '../clock.ts';
import type { MakeCode } from '../store/codes.ts';
import { type MakeId, randomId } from '../store/ids.ts';
import type { Log } from '../sweeps/line.ts';
import { type OpenLine, openLine } from '../sweeps/open-line.ts';
import { readVoices } from '../sweeps/read-voices.ts';
import { realTalk } from '../sweeps/real-talk.ts';

export const DEMO_SCHEME = fileURLToPath(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url));

export interface DeskParts {
  readonly path: string;
  readonly clock: Clock;
  readonly makeId: MakeId;
  readonly makeCode?: MakeCode;
  readonly log: Log;
  /** The desk when not given. */
  readonly carrier?: Carrier;
}

/** What a command needs of the line's settings. */
export interface DeskSettings {
  readonly databasePath: string;
  /** Path of a scheme file, null for what the database has. */
  readonly schemePath: string | null;
  /** Where a simulated clock starts; null for the machine's. */
  readonly clockStartMs: number | null;
}

/** Opens it as the settings say; warnings and faults go to the terminal. Rejects as `openLine` does. */
export function openSettingsLine({
  databasePath,
  schemePath,
  clockStartMs,
}: DeskSettings): Promise<OpenLine> {
  return openDeskLine(schemePath, {
    path: databasePath,
    clock: clockStartMs === null ? realClock : clockFrom(clockStartMs),
    makeId: randomId,
    log: {
      info: () => {},
      warn: (_, message) => console.error(message),
      error: (_, message) => console.error(message),
    },
  });
}

/** Opens it with a scheme file by path; null keeps what the database has, or loads the demo. Rejects as `openLine` does. */
export function openDeskLine(schemePath: string | null, parts: DeskParts): Promise<OpenLine> {
  return openDeskLineOf(schemePath === null ? null : readFileSync(schemePath, 'utf8'), parts);
}

/** Opens it with a scheme file's text. */
export function openDeskLineOf(schemeText: string | null, parts: DeskParts): Promise<OpenLine> {
  return openLine({
    carrier: deskCarrier(),
    ...parts,
    schemeText,
    talk: realTalk,
    voices: readVoices(),
    rulebook: DEFAULT_RULEBOOK,
    demoText: readFileSync(DEMO_SCHEME, 'utf8'),
  });
}
