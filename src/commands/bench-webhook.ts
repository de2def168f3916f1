/** Texts per second over HTTP, of the whole path and of a floor that only reads the form and writes one durable row. */
import { type ChildProcess, fork } from 'node:child_process';
import { Agent, request } from 'node:http';
import { fileURLToPath } from 'node:url';
import { BENCH_PHONES } from './bench-scheme.ts';

const CONNECTIONS = 32;
const TEXTS_A_ROUND = 3000;
const ROUNDS = 3;
const SERVER = fileURLToPath(new URL('./bench-server.js', import.meta.url));

/** What growers text most; each phone sends them in turn. */
const TEXTS = [
  'cleared plot 1',
  'what next',
  'soaked plot 1 yesterday',
  'ploughed plot 2, 12 cm',
  'when puddle plot 1?',
  'dates 2',
  'why',
  'undo',
];

interface Round {
  readonly perSecond: number;
  readonly p50: number;
  readonly p99: number;
}

/** Alternates floor and line, so that a slow minute of the machine weighs on both; the middle rounds count. */
export async function benchWebhook(): Promise<readonly string[]> {
  const servers = { floor: await startServer('floor'), line: await startServer('line') };
  try {
    let sent = 0;
    const rounds: Record<'floor' | 'line', Round[]> = { floor: [], line: [] };
    for (const name of ['floor', 'line'] as const) await round(servers[name].port, 500, sent++);
    for (let i = 0; i < ROUNDS; i++) {
      for (const name of ['floor', 'line'] as const)
        rounds[name].push(await round(servers[name].port, TEXTS_A_ROUND, sent++));
    }
    const [floor, line] = [middle(rounds.floor), middle(rounds.line)];
    return [
      show('floor', floor),
      show('whole path', line),
      `webhook: ${(line.perSecond / floor.perSecond).toFixed(2)} of the floor (at least 0.4, aim 0.6)`,
    ];
  } finally {
    for (const { child } of Object.values(servers)) child.kill();
  }
}

const middle = (rounds: readonly Round[]) =>
  [...rounds].sort((a, b) => a.perSecond - b.perSecond)[Math.floor(rounds.length / 2)] as Round;

const show = (name: string, { perSecond, p50, p99 }: Round) =>
  `webhook ${name}: ${perSecond.toFixed(0)} texts/s at ${CONNECTIONS} connections, p50 ${p50.toFixed(1)} ms, p99 ${p99.toFixed(1)} ms`;

function startServer(kind: 'floor' | 'line'): Promise<{ child: ChildProcess; port: number }> {
  const child = fork(SERVER, [kind]);
  return new Promise((resolve, reject) => {
    child.once('message', (port) => resolve({ child, port: Number(port) }));
    child.once('exit', (code) => reject(new Error(`the ${kind} server ended with ${code}`)));
  });
}

async function round(port: number, texts: number, run: number): Promise<Round> {
  const agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });
  const latencies: number[] = [];
  let next = 0;
  const started = performance.now();
  const sender = async () => {
    for (let index = next++; index < texts; index = next++) {
      const before = performance.now();
      await send(
        agent,
        port,
        `SM${run}-${index}`,
        index % BENCH_PHONES,
        TEXTS[Math.floor(index / BENCH_PHONES) % TEXTS.length] ?? 'next',
      );
      latencies.push(performance.now() - before);
    }
  };
  await Promise.all(Array.from({ length: CONNECTIONS }, sender));
  const seconds = (performance.now() - started) / 1000;
  agent.destroy();
  latencies.sort((a, b) => a - b);
  return { perSecond: texts / seconds, p50: quantile(latencies, 0.5), p99: quantile(latencies, 0.99) };
}

function send(agent: Agent, port: number, id: string, phone: number, text: string): Promise<void> {
  const from = `+447700900${String(phone).padStart(3, '0')}`;
  const body = new URLSearchParams({
    MessageSid: id,
    From: from,
    To: '+447700900999',
    Body: text,
  }).toString();
  return new Promise((resolve, reject) => {
    const headers = {
      'content-type': 'application/x-www-form-urlencoded',
      'content-length': Buffer.byteLength(body),
    };
    const sending = request(
      { agent, port, host: '127.0.0.1', path: '/sms', method: 'POST', headers },
      (response) => {
        response.resume();
        response.once('end', () =>
          response.statusCode === 200 ? resolve() : reject(new Error(`status ${response.statusCode}`)),
        );
      },
    );
    sending.once('error', reject);
    sending.end(body);
  });
}

/** The value below which this share of sorted values lies. */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}
