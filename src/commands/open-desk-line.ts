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
  /** Path of a scheme file to load; null keeps what the database has, or loads the demo. */
  readonly schemePath: string | null;
}

/** Opens it; rejects as `openLine` does. */
export function openDeskLine({ schemePath, ...parts }: DeskParts): Promise<OpenLine> {
  return openLine({
    ...parts,
    carrier: deskCarrier(),
    talk: realTalk,
    voices: readVoices(),
    rulebook: DEFAULT_RULEBOOK,
    schemeText: schemePath === null ? null : readFileSync(schemePath, 'utf8'),
    demoText: readFileSync(DEMO_SCHEME, 'utf8'),
  });
}
