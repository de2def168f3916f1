/** Opens the line for a command: the desk carrier, the real conversation, the demo scheme when nothing else is there. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DEFAULT_RULEBOOK } from '../agronomy/rules/default-rulebook.ts';
import { deskCarrier } from '../carriers/desk.ts';
import type { Clock } from '../clock.ts';
import type { MakeId } from '../store/ids.ts';
import type { Log } from '../sweeps/line.ts';
import { type OpenLine, openLine } from '../sweeps/open-line.ts';
import { readVoices } from '../sweeps/read-voices.ts';
import { realTalk } from '../sweeps/real-talk.ts';

export const DEMO_SCHEME = fileURLToPath(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url));

export interface DeskParts {
  readonly path: string;
  readonly clock: Clock;
  readonly makeId: MakeId;
  readonly log: Log;
}

/** Opens it with a scheme file by path; null keeps what the database has, or loads the demo. Rejects as `openLine` does. */
export function openDeskLine(schemePath: string | null, parts: DeskParts): Promise<OpenLine> {
  return openDeskLineOf(schemePath === null ? null : readFileSync(schemePath, 'utf8'), parts);
}

/** Opens it with a scheme file's text. */
export function openDeskLineOf(schemeText: string | null, parts: DeskParts): Promise<OpenLine> {
  return openLine({
    ...parts,
    schemeText,
    carrier: deskCarrier(),
    talk: realTalk,
    voices: readVoices(),
    rulebook: DEFAULT_RULEBOOK,
    demoText: readFileSync(DEMO_SCHEME, 'utf8'),
  });
}
