/** The other side of the bench: server processes, posts to them over kept connections, and how long these take. */
import { type ChildProcess, fork } from 'node:child_process';
import { Agent, request } from 'node:http';
import { fileURLToPath } from 'node:url';

/** Posts under way at once. */
export const CONNECTIONS = 32;
const SERVER = fileURLToPath(new URL('./bench-server.js', import.meta.url));

/** A server process, and where it listens. */
export interface BenchServer {
  readonly child: ChildProcess;
  readonly port: number;
}

/** A form, and the path that it is posted to. */
export interface BenchForm {
  readonly path: string;
  readonly form: Readonly<Record<string, string>>;
}

export interface Round {
  readonly perSecond: number;
  /** In milliseconds. */
  readonly p50: number;
  readonly p99: number;
}

/** Starts the whole line, or the floor. */
export function startServer(kind: 'floor' | 'line'): Promise<BenchServer> {
  const child = fork(SERVER, [kind]);
  return new Promise((resolve, reject) => {
    child.once('message', (port) => resolve({ child, port: Number(port) }));
    child.once('exit', (code) => reject(new Error(`the ${kind} server ended with ${code}`)));
  });
}

/** Posts so many forms, each sender its next as soon as the one before is answered. */
export async function closedRound(
  port: number,
  count: number,
  formOf: (index: number) => BenchForm,
): Promise<Round> {
  const agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });
  const latencies: number[] = [];
  let next = 0;
  const started = performance.now();
  const sender = async () => {
    for (let index = next++; index < count; index = next++) {
      const before = performance.now();
      await postForm(agent, port, formOf(index));
      latencies.push(performance.now() - before);
    }
  };
  await Promise.all(Array.from({ length: CONNECTIONS }, sender));
  const seconds = (performance.now() - started) / 1000;
  agent.destroy();
  return { perSecond: count / seconds, ...quantilesOf(latencies) };
}

/** Half of the values, and all but a hundredth, lie below these. */
export function quantilesOf(values: readonly number[]): Pick<Round, 'p50' | 'p99'> {
  const sorted = values.toSorted((a, b) => a - b);
  return { p50: quantile(sorted, 0.5), p99: quantile(sorted, 0.99) };
}

/** The round of middle speed. */
export const middle = (rounds: readonly Round[]) =>
  rounds.toSorted((a, b) => a.perSecond - b.perSecond)[Math.floor(rounds.length / 2)] as Round;

/** Resolves once the answer is read; rejects when it is no 200. */
export function postForm(agent: Agent, port: number, { path, form }: BenchForm): Promise<void> {
  const body = new URLSearchParams(form).toString();
  return new Promise((resolve, reject) => {
    const headers = {
      'content-type': 'application/x-www-form-urlencoded',
      'content-length': Buffer.byteLength(body),
    };
    const sending = request({ agent, port, host: '127.0.0.1', path, method: 'POST', headers }, (response) => {
      response.resume();
      response.once('end', () =>
        response.statusCode === 200 ? resolve() : reject(new Error(`status ${response.statusCode}`)),
      );
    });
    sending.once('error', reject);
    sending.end(body);
  });
}

/** The value below which this share of sorted values lies. */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}
