/** Texts per second out of the outbox, against a bare loop of the same HTTP calls; and the memory that a backlog takes. */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Carrier, TextOut } from '../carriers/carrier.ts';
import { restCarrier } from '../carriers/rest-carrier.ts';
import { simulatedClock } from '../clock.ts';
import { countedIds } from '../store/ids.ts';
import { type NewText, queueTexts } from '../store/outbox.ts';
import type { OpenLine } from '../sweeps/open-line.ts';
import { sweepOutbox } from '../sweeps/sweep-outbox.ts';
import { benchScheme } from './bench-scheme.ts';
import { heapInUse } from './heap-in-use.ts';
import { openDeskLineOf } from './open-desk-line.ts';

const TEXTS = 5000;
const BACKLOG = 100_000;
/** As many as a sweep sends at once. */
const TOGETHER = 50;
const ROUNDS = 3;
const NOW_MS = Date.UTC(2027, 2, 10, 12);
const DAY_MS = 86_400_000;
const QUEUED_AT_ONCE = 1000;
const CARRIER = fileURLToPath(new URL('./bench-carrier.js', import.meta.url));

/** Alternates the bare calls and the outbox, so that a slow minute of the machine weighs on both. */
export async function benchOutbox(): Promise<readonly string[]> {
  const { child, port } = await startCarrier();
  const carrier = carrierAt(port);
  try {
    await bareCalls(carrier, TOGETHER);
    const rounds: { readonly bare: number; readonly outbox: number }[] = [];
    for (let i = 0; i < ROUNDS; i++)
      rounds.push({ bare: await bareCalls(carrier, TEXTS), outbox: (await drain(carrier, TEXTS)).perSecond });
    const ratios = rounds.map(({ bare, outbox }) => outbox / bare).sort((a, b) => a - b);
    const backlog = await drain(carrier, BACKLOG);
    return [
      ...rounds.map(
        ({ bare, outbox }) => `outbox: ${outbox.toFixed(0)} texts/s, bare calls ${bare.toFixed(0)}/s`,
      ),
      `outbox: ${(ratios[Math.floor(ROUNDS / 2)] ?? 0).toFixed(2)} of the bare calls (at least 0.5)`,
      `outbox: a backlog of ${BACKLOG}: ${backlog.perSecond.toFixed(0)} texts/s, memory ${backlog.memory}`,
    ];
  } finally {
    child.kill();
  }
}

function startCarrier(): Promise<{ child: ChildProcess; port: number }> {
  const child = fork(CARRIER);
  return new Promise((resolve, reject) => {
    child.once('message', (port) => resolve({ child, port: Number(port) }));
    child.once('exit', (code) => reject(new Error(`the carrier ended with ${code}`)));
  });
}

const carrierAt = (port: number) =>
  restCarrier({
    ...{ baseUrl: `http://127.0.0.1:${port}`, accountSid: 'AC1', token: 't', from: '+447700900999' },
    statusUrl: 'http://127.0.0.1/sms/status',
    partsPerSecond: null,
  });

const textOf = (index: number) => `Plot ${index} 1: next is ploughing, 10 to 15 cm deep, by Fri 12 Mar.`;

/** The same calls, so many under way at a time, with nothing kept; calls per second. */
async function bareCalls(carrier: Carrier, texts: number): Promise<number> {
  let next = 0;
  const started = performance.now();
  const caller = async () => {
    for (let index = next++; index < texts; index = next++) {
      const { kind } = await carrier.send(textOut(index));
      if (kind !== 'handed') throw new Error(`a text was ${kind} instead of handed`);
    }
  };
  await Promise.all(Array.from({ length: TOGETHER }, caller));
  return (texts * 1000) / (performance.now() - started);
}

const textOut = (index: number): TextOut => ({
  ...{ to: '+447700900001', text: textOf(index), id: `t${index}`, key: `k${index}`, attempt: 1 },
  ...{ doubtful: false, queuedMs: NOW_MS, validForMs: DAY_MS },
});

/** Queues so many texts on a database of its own, and sends them by sweeps. */
async function drain(
  carrier: Carrier,
  texts: number,
): Promise<{ readonly perSecond: number; readonly memory: string }> {
  const folder = mkdtempSync(join(tmpdir(), 'bundline-outbox-'));
  const line = await openDeskLineOf(benchScheme(), {
    ...{ path: join(folder, 'line.db'), clock: simulatedClock(NOW_MS), makeId: countedIds('o') },
    log: { info: () => {}, warn: console.error, error: console.error },
    carrier,
  });
  try {
    await fill(line, texts);
    const before = heapInUse();
    const started = performance.now();
    const handed = await sweepOutbox(line);
    const ms = performance.now() - started;
    if (handed !== texts) throw new Error(`${handed} texts were handed over instead of ${texts}`);
    const memory = `${before.toFixed(0)} -> ${heapInUse().toFixed(0)} MB of heap after a collection`;
    return { perSecond: (texts * 1000) / ms, memory };
  } finally {
    await line.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function fill(line: OpenLine, texts: number): Promise<void> {
  for (let from = 0; from < texts; from += QUEUED_AT_ONCE) {
    const some = Array.from(
      { length: Math.min(QUEUED_AT_ONCE, texts - from) },
      (_, i): NewText => ({
        ...{ id: `t${from + i}`, key: `k${from + i}`, phone: '+447700900001', text: textOf(from + i) },
        ...{ notBeforeMs: NOW_MS, expiresMs: NOW_MS + DAY_MS },
      }),
    );
    await line.together((trx) => queueTexts(trx, some, NOW_MS, null));
  }
}
