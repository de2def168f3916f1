/**
 * A process that is killed again and again in the middle of a broadcast. A kill between the hand-over of a text and the note
 * of it leads to a second hand-over under the same key: what counts is one delivery for each phone by a carrier that drops a
 * key it has taken before, and one text for each phone in the outbox.
 */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, expect, onTestFinished, test } from 'vitest';
import { LEASE_MS } from '../../src/store/outbox.ts';
import type { Broadcast } from '../../src/talk/broadcast.ts';
import { queuedTexts, sendBroadcast, stateOf, waterOf, wordsOf } from '../support/broadcasts.ts';
import { MANY_BLOCK, manyPhone, plantMany } from '../support/many-growers.ts';
import { buildServer } from '../support/real-server.ts';
import { HOUR_MS, NOON_MS, newFolder, type TestLine, testLine } from '../support/test-line.ts';

beforeAll(buildServer, 180_000);

const CHILD = fileURLToPath(new URL('../support/broadcast-child.mjs', import.meta.url));
const GROWERS = 1000;
/** Then it may come to its end. */
const MOST_KILLS = 8;
const ALL = Array.from({ length: GROWERS }, (_, i) => manyPhone(i));

/** Runs the child on its line; kills it after so many dots, never where there are none. Tells how it ended. */
function runChild(path: string, taken: string, nowMs: number, dots = Number.POSITIVE_INFINITY) {
  const child = spawn(process.execPath, [CHILD, path, taken, String(nowMs)]);
  onTestFinished(() => void child.kill('SIGKILL'));
  const said = { stdout: '', words: '' };
  child.stderr.on('data', (chunk) => (said.words += String(chunk)));
  child.stdout.on('data', (chunk) => {
    said.stdout += String(chunk);
    if (said.stdout.length >= dots) child.kill('SIGKILL');
  });
  return new Promise<{ signal: string | null; words: string }>((resolve) =>
    child.once('close', (_code, signal) => resolve({ signal, words: said.words })),
  );
}

const linesOf = (file: string) => (existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : []);

/** Kills and starts the child until it comes to its end by itself, each time a lease later; how far it was at each kill. */
async function killUntilDone(line: TestLine, taken: string) {
  const left: { queued: number; taken: number }[] = [];
  for (;;) {
    // First among the pieces, then among the texts that are handed over.
    const dots = left.length < MOST_KILLS / 2 ? 1 + (left.length % 2) : 1 + Math.floor(Math.random() * 250);
    const nowMs = NOON_MS + left.length * LEASE_MS;
    const run = await runChild(line.path, taken, nowMs, left.length < MOST_KILLS ? dots : undefined);
    expect(run.words).toBe('');
    if (run.signal === null) return left;
    left.push({ queued: (await queuedTexts(line.db)).length, taken: linesOf(taken).length });
  }
}

const water = (): Broadcast => {
  const visit = { start: { day: 20_900, hour: 6 }, end: { day: 20_900, hour: 8 } };
  const appointments = ALL.map((_, i) => ({ plotId: `m${String(i).padStart(7, '0')}`, visit }));
  return { ...waterOf({}), kind: 'water', appointments } as Broadcast;
};

test.each([
  ['words', () => wordsOf('canal closed', MANY_BLOCK)],
  ['water turns', water],
])(
  '%s to a thousand, killed at any moment: one text for each phone, queued and delivered',
  async (_name, broadcast) => {
    const line = await testLine(onTestFinished);
    await plantMany(line.db, GROWERS);
    await line.db
      .updateTable('seasons')
      .set({
        way: JSON.stringify({
          water: 'irrigated',
          tillage: 'hoe',
          establishment: 'transplant',
          nursery: 'wet-bed',
          ripens: 'by-days',
        }),
      })
      .where('id', 'like', 'm%')
      .execute();
    await sendBroadcast(line.db, 'b', broadcast());
    const taken = join(newFolder(onTestFinished), 'taken');
    const left = await killUntilDone(line, taken);
    expect(left.some(({ queued }) => queued > 0 && queued < GROWERS)).toBe(true);
    expect(left.some((at) => at.taken > 0 && at.taken < GROWERS)).toBe(true);
    // What the last kill left on lease.
    await runChild(line.path, taken, NOON_MS + (MOST_KILLS + 2) * LEASE_MS);
    expect(
      linesOf(taken)
        .map((one) => one.split(' ')[1])
        .sort(),
    ).toEqual(ALL);
    expect((await queuedTexts(line.db)).map(({ phone }) => phone)).toEqual(ALL);
    expect(await line.db.selectFrom('outbox').select('state').distinct().execute()).toEqual([
      { state: 'handed' },
    ]);
    await runChild(line.path, taken, NOON_MS + HOUR_MS);
    expect((await stateOf(line.db, 'b')).state).toBe('told');
  },
  120_000,
);
