/** The real line with the demo scheme, texted from phones of agents and growers on a simulated clock. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { deskCarrier } from '../../src/carriers/desk.ts';
import { simulatedClock } from '../../src/clock.ts';
import { measure } from '../../src/say/parts.ts';
import { countedCodes } from '../../src/store/codes.ts';
import { countedIds } from '../../src/store/ids.ts';
import type { Voice } from '../../src/sweeps/line.ts';
import { type OpenLine, openLine } from '../../src/sweeps/open-line.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepBroadcasts } from '../../src/sweeps/sweep-broadcasts.ts';
import { sweepDeliveries } from '../../src/sweeps/sweep-deliveries.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { takeText } from '../../src/web/take-text.ts';
import { keptLog, newFolder } from './test-line.ts';

export const OFFICE = '+447700900990';
export const SECRETARY = '+447700900991';
export const ASHA = '+447700900001';
export const DEMBE = '+447700900004';

const MINUTE_MS = 60_000;
const DEMO = resolve(import.meta.dirname, '../../scripts/demo/orrowe-valley.yaml');
let voices: readonly Voice[] | null = null;

export interface AgentLine {
  readonly line: OpenLine;
  /** The answer to a text; '' when there is none. */
  say(from: string, text: string): Promise<string>;
  /** Texts an order and then the code in its answer; both answers. */
  order(from: string, text: string): Promise<{ readonly preview: string; readonly done: string }>;
  /** Sends what is to be sent; texts that were not seen before, as "…last three digits: text". */
  sent(): Promise<readonly string[]>;
  wait(minutes: number): void;
  /** Parts of a text, and whether these are few enough for an agent. */
  fits(text: string): boolean;
  readonly faults: readonly string[];
}

/** Opens it on Wednesday 10 March 2027, 08:00; `change` alters the demo scheme's text. */
export async function agentLine(
  afterwards: (undo: () => Promise<void> | void) => void,
  change: (scheme: string) => string = (scheme) => scheme,
): Promise<AgentLine> {
  voices ??= readVoices();
  const clock = simulatedClock(Date.parse('2027-03-10T08:00:00Z'));
  const log = keptLog();
  const line = await openLine({
    path: join(newFolder(afterwards), 'line.db'),
    clock,
    log,
    makeId: countedIds('a'),
    makeCode: countedCodes(),
    carrier: deskCarrier(),
    voices,
    talk: realTalk,
    rulebook: DEFAULT_RULEBOOK,
    schemeText: change(readFileSync(DEMO, 'utf8')),
  });
  afterwards(() => line.close());
  const seen = new Set<string>();
  let count = 0;
  const say = async (from: string, text: string) => {
    count += 1;
    return (await takeText(line, { carrierId: `C${count}`, from, text })) ?? '';
  };
  return {
    line,
    say,
    order: async (from, text) => {
      const preview = await say(from, text);
      return { preview, done: await say(from, codeIn(preview)) };
    },
    sent: async () => {
      await sweepBroadcasts(line);
      await sweepOutbox(line);
      await sweepDeliveries(line);
      await sweepOutbox(line);
      const rows = await line.db.selectFrom('outbox').selectAll().orderBy('phone').orderBy('id').execute();
      const fresh = rows.filter(({ id }) => !seen.has(id));
      for (const { id } of fresh) seen.add(id);
      return fresh.map(({ phone, text }) => `${phone.slice(-3)}: ${text}`);
    },
    wait: (minutes) => clock.advance(minutes * MINUTE_MS),
    fits: (text) => {
      const { encoding, parts } = measure(text);
      return parts <= (encoding === 'UCS-2' ? 4 : 3);
    },
    faults: log.lines,
  };
}

/** The five figures of a code in a text, in any digits; '' when there are none. */
export const codeIn = (text: string) => /(?<!\p{Nd})\p{Nd}{5}(?!\p{Nd})/u.exec(text)?.[0] ?? '';
