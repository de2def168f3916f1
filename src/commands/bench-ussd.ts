/** Hits on numbered screens: how long each takes at a held rate, and how many a second beside texts over the webhook. */
import { Agent } from 'node:http';
import { setTimeout as wait } from 'node:timers/promises';
import {
  type BenchForm,
  CONNECTIONS,
  closedRound,
  middle,
  postForm,
  quantilesOf,
  type Round,
  startServer,
} from './bench-client.ts';
import { BENCH_PHONES } from './bench-scheme.ts';
import { benchText } from './bench-webhook.ts';

const HITS_PER_SECOND = 200;
const HELD_S = 10;
const A_ROUND = 1200;
const ROUNDS = 3;

/** Keys of sessions in turn, as the common form sends them: work on a plot is recorded, then the next step and the dates are read. */
const SESSIONS: readonly (readonly string[])[] = [1, 2].flatMap((plot) => [
  ['', '1', `1*${plot}`, `1*${plot}*1`, `1*${plot}*1*1`, `1*${plot}*1*1*1`],
  ['', '2'],
  ['', '3'],
]);
const HITS = SESSIONS.flatMap((keys, session) => keys.map((text) => ({ session, text })));

/** Holds the rate first, on a line of its own; then alternates texts and hits, and the middle rounds count. */
export async function benchUssd(): Promise<readonly string[]> {
  const servers = {
    held: await startServer('line'),
    texts: await startServer('line'),
    hits: await startServer('line'),
  };
  try {
    await closedRound(servers.held.port, 500, (index) => benchHit(0, index));
    const held = await heldRate(servers.held.port);
    const rounds: Record<'texts' | 'hits', Round[]> = { texts: [], hits: [] };
    for (let run = 0; run <= ROUNDS; run += 1) {
      const texts = await closedRound(servers.texts.port, A_ROUND, (index) => benchText(run, index));
      const hits = await closedRound(servers.hits.port, A_ROUND, (index) => benchHit(run, index));
      // The first warms up.
      if (run === 0) continue;
      rounds.texts.push(texts);
      rounds.hits.push(hits);
    }
    const [texts, hits] = [middle(rounds.texts), middle(rounds.hits)];
    return [
      `ussd held: ${HITS_PER_SECOND} hits/s for ${HELD_S} s, ${held.done} answered, p50 ${held.p50.toFixed(1)} ms, p99 ${held.p99.toFixed(1)} ms from the instant at which each was due`,
      show('hits', hits),
      show('texts', texts),
      `ussd: ${(hits.perSecond / texts.perSecond).toFixed(2)} of the webhook's texts/s`,
    ];
  } finally {
    for (const { child } of Object.values(servers)) child.kill();
  }
}

const show = (name: string, { perSecond, p50, p99 }: Round) =>
  `ussd ${name}: ${perSecond.toFixed(0)}/s at ${CONNECTIONS} connections, p50 ${p50.toFixed(1)} ms, p99 ${p99.toFixed(1)} ms`;

/** Posts at the rate whether or not what came before is answered, so that a slow answer shows in those behind it too. */
async function heldRate(port: number): Promise<Pick<Round, 'p50' | 'p99'> & { readonly done: number }> {
  const agent = new Agent({ keepAlive: true });
  const latencies: number[] = [];
  const started = performance.now();
  const hit = async (index: number, dueMs: number) => {
    await postForm(agent, port, benchHit(1, index));
    latencies.push(performance.now() - dueMs);
  };
  const hits: Promise<void>[] = [];
  for (let index = 0; index < HITS_PER_SECOND * HELD_S; index += 1) {
    const dueMs = started + (index * 1000) / HITS_PER_SECOND;
    const earlyMs = dueMs - performance.now();
    if (earlyMs > 0) await wait(earlyMs);
    hits.push(hit(index, dueMs));
  }
  await Promise.all(hits);
  agent.destroy();
  return { done: latencies.length, ...quantilesOf(latencies) };
}

/** A hit of a round: every phone makes the first of its session, then every phone the next. */
function benchHit(run: number, index: number): BenchForm {
  const phone = index % BENCH_PHONES;
  const { session, text } = HITS[Math.floor(index / BENCH_PHONES) % HITS.length] ?? { session: 0, text: '' };
  const phoneNumber = `+447700900${String(phone).padStart(3, '0')}`;
  return { path: '/ussd', form: { sessionId: `S${run}-${session}-${phone}`, phoneNumber, text } };
}
