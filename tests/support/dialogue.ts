/** Plays a dialogue written as a text file: days, texts in, texts out, over the real line on a real database. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parse, stringify } from 'yaml';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { deskCarrier } from '../../src/carriers/desk.ts';
import { simulatedClock } from '../../src/clock.ts';
import { measure } from '../../src/say/parts.ts';
import { countedIds } from '../../src/store/ids.ts';
import { type OpenLine, openLine } from '../../src/sweeps/open-line.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepReminders } from '../../src/sweeps/sweep-reminders.ts';
import { takeText } from '../../src/web/take-text.ts';
import { keptLog, newFolder } from './test-line.ts';

const DAY_MS = 86_400_000;

/** One line of a dialogue file: a day, a text in ("> "), a text out ("< ") or a note ("# "). */
interface Played {
  readonly lines: readonly string[];
  /** Every text out with its parts. */
  readonly out: readonly { readonly text: string; readonly parts: number; readonly reminder: boolean }[];
  readonly faults: readonly string[];
}

/** Plays the texts of a dialogue; returns the file as it now reads, with the line's own answers. */
export async function play(
  source: string,
  afterwards: (undo: () => Promise<void> | void) => void,
): Promise<Played> {
  const clock = simulatedClock(Date.parse('2027-03-01T08:00:00Z'));
  const log = keptLog();
  const line = await openLine({
    path: join(newFolder(afterwards), 'line.db'),
    clock,
    log,
    makeId: countedIds('d'),
    carrier: deskCarrier(),
    voices: readVoices(),
    talk: realTalk,
    rulebook: DEFAULT_RULEBOOK,
    schemeText: schemeFor(source),
  });
  afterwards(() => line.close());
  return playOn(line, clock, source, log.lines);
}

/** The demo scheme; a row "way water=rain-fed" in the dialogue grows every plot so, in a place whose weather is not known. */
function schemeFor(source: string): string {
  const text = readFileSync(resolve(import.meta.dirname, '../../scripts/demo/orrowe-valley.yaml'), 'utf8');
  const pairs = source
    .split('\n')
    .filter((row) => row.startsWith('way '))
    .flatMap((row) => row.slice(4).split(' '));
  if (pairs.length === 0) return text;
  const way = Object.fromEntries(pairs.map((pair) => pair.split('=')));
  const { climate: _, ...scheme } = parse(text) as { plots: { way: object }[]; climate: object };
  const plots = scheme.plots.map((plot) => ({ ...plot, way: { ...plot.way, ...way } }));
  return stringify({ ...scheme, plots });
}

async function playOn(
  line: OpenLine,
  clock: ReturnType<typeof simulatedClock>,
  source: string,
  faults: readonly string[],
): Promise<Played> {
  const lines: string[] = [];
  const out: { text: string; parts: number; reminder: boolean }[] = [];
  let from = '+447700900001';
  let count = 0;
  const hearOut = (text: string, reminder: boolean) => {
    lines.push(`${reminder ? '* ' : '< '}${text.replaceAll('\n', ' / ')}`);
    out.push({ text, parts: measure(text).parts, reminder });
  };
  for (const row of source.split('\n')) {
    if (row.startsWith('< ') || row.startsWith('* ')) continue;
    lines.push(row);
    if (row.startsWith('from ')) from = row.slice(5).trim();
    if (row.startsWith('day ')) {
      const target = Date.parse(`${row.slice(4).trim()}T08:00:00Z`);
      while (clock.nowMs() < target) {
        clock.set(Math.floor(clock.nowMs() / DAY_MS) * DAY_MS + 17 * 3_600_000);
        await sweepReminders(line);
        for (const text of await newTexts(line, from))
          hearOut(`[${new Date(clock.nowMs()).toISOString().slice(5, 10)}] ${text}`, true);
        clock.set(Math.floor(clock.nowMs() / DAY_MS) * DAY_MS + DAY_MS + 8 * 3_600_000);
      }
    }
    if (row.startsWith('> ')) {
      count += 1;
      const text = row.slice(2).replaceAll('\\n', '\n');
      hearOut((await takeText(line, { carrierId: `SM${count}`, from, text })) ?? '(nothing)', false);
      clock.advance(60_000);
    }
  }
  return { lines, out, faults };
}

const seen = new WeakMap<OpenLine, Set<string>>();

async function newTexts(line: OpenLine, phone: string): Promise<readonly string[]> {
  const known = seen.get(line) ?? new Set<string>();
  seen.set(line, known);
  const rows = await line.db
    .selectFrom('outbox')
    .select(['id', 'text'])
    .where('phone', '=', phone)
    .orderBy('id')
    .execute();
  const fresh = rows.filter(({ id }) => !known.has(id));
  for (const { id } of fresh) known.add(id);
  return fresh.map(({ text }) => text);
}
